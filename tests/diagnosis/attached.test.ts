/** Test lamps in place of fuses hang on the circuit in every reading; a low-impedance meter, and a lamp beside one, load what is read. */
import { describe, expect, test } from 'vitest';
import { kinds } from '../session/kinds-circuit.js';
import { Asked } from './asked.js';

const asked = new Asked(kinds);
const short = asked.short('W7');
const noLamp = asked.open('H1.31');

describe('a test lamp in place of a fuse', () => {
  const lamp = (what: string, ...before: readonly string[]) => [
    ...before,
    'prove test lamp',
    'lamp F1',
    'key on',
    `fuselamp F1 ${what}`,
  ];
  test('when the load is connected then it burns through the load, short or not', () => {
    expect(asked.agrees(lamp('lit'))).toBe(true);
    expect(asked.agrees(lamp('lit'), short)).toBe(true);
    expect(asked.agrees(lamp('off'), short)).toBe(false);
  });
  test('when the load is taken out then it burns only with a short behind it', () => {
    expect(asked.agrees(lamp('off', 'out H1'))).toBe(true);
    expect(asked.agrees(lamp('lit', 'out H1'))).toBe(false);
    expect(asked.agrees(lamp('lit', 'out H1'), short)).toBe(true);
    expect(asked.agrees(lamp('off', 'out H1'), short)).toBe(false);
  });
  test('when the way through the load is open then it stays dark', () => {
    expect(asked.agrees(lamp('off'), noLamp)).toBe(true);
    expect(asked.agrees(lamp('lit'), noLamp)).toBe(false);
  });
  test('when something else is read meanwhile then the lamp feeds it', () => {
    const volts = (reading: string) => ['lamp F1', 'key on', 'out H1', `volts F1.2 ${reading}`];
    expect(asked.agrees(volts('12.5'))).toBe(true);
    expect(asked.agrees(volts('0.0'))).toBe(false);
    expect(asked.agrees(['out F1', 'key on', 'out H1', 'prove volts', 'volts F1.2 0.0'])).toBe(true);
  });
  test('when the hanging of it was undone then what it did proves nothing', () => {
    expect(asked.observations('lamp F1', 'key on', 'fuselamp F1 lit', 'undo 1')).toEqual([]);
  });
});

describe('a voltmeter in its low-impedance mode', () => {
  // Trade notes §7: 1 kohm in series reads 12.6 V at 10 Mohm and 9.45 V at 3 kohm.
  const leaky = asked.open('F1.1', 1000);
  test('when a joint of a kilohm feeds the open end then it reads less, and the usual meter does not', () => {
    expect(asked.agrees(['key on', 'out H1', 'volts lowz F1.2 9.4/12.6'], leaky)).toBe(true);
    expect(asked.agrees(['key on', 'out H1', 'volts F1.2 9.4/12.6'], leaky)).toBe(false);
    expect(asked.agrees(['key on', 'out H1', 'volts F1.2 12.6/12.6'], leaky)).toBe(true);
  });
  test('when the way is whole then it reads full volts', () => {
    expect(asked.agrees(['key on', 'out H1', 'volts lowz F1.2 12.6/12.6'])).toBe(true);
    expect(asked.agrees(['key on', 'out H1', 'volts lowz F1.2 9.4/12.6'])).toBe(false);
  });
});

describe('a voltmeter with a test lamp across its probes', () => {
  // A test lamp of 4 W takes a third of an ampere (trade notes §7: 3 to 5 W): 3 ohm before it steal about a volt.
  const poor = asked.open('F1.1', 3);
  test('when a joint of a few ohms feeds the open end then it reads less, and without the lamp it does not', () => {
    expect(asked.agrees(['key on', 'out H1', 'volts loaded F1.2 11.6/12.6'], poor)).toBe(true);
    expect(asked.agrees(['key on', 'out H1', 'volts loaded F1.2 12.5/12.6'], poor)).toBe(false);
    expect(asked.agrees(['key on', 'out H1', 'volts F1.2 12.6/12.6'], poor)).toBe(true);
  });
  test('when a kilohm feeds it then hardly anything is left, whatever the lamp', () => {
    // Trade notes §7: 1 kohm in series and a 3 W lamp at its hot 48 ohm leave 0.58 V of 12.6 V, and a cold filament less.
    const leaky = asked.open('F1.1', 1000);
    for (const volts of ['0.05', '0.1'])
      expect(
        asked.agrees(['prove volts', 'key on', 'out H1', `volts loaded F1.2 ${volts}/12.6`], leaky),
      ).toBe(true);
    for (const volts of ['0.58', '12.6'])
      expect(asked.agrees(['key on', 'out H1', `volts loaded F1.2 ${volts}/12.6`], leaky)).toBe(false);
  });
  test('when the way is whole then it reads full volts, and on a dead line nothing', () => {
    expect(asked.agrees(['key on', 'out H1', 'volts loaded F1.2 12.5/12.6'])).toBe(true);
    expect(asked.agrees(['prove volts', 'out H1 F1', 'volts loaded F1.2 0.0/12.6'])).toBe(true);
    expect(asked.agrees(['prove volts', 'out H1 F1', 'volts loaded F1.2 12.5/12.6'])).toBe(false);
  });
});

test('when a fuse carries a lamp then its millivolts fit, and a dead circuit or a short do not', () => {
  // A 10 A fuse of 7.5 mohm drops 13 mV at 1.75 A; its own ohms spread by some 30 % and more.
  const drop = (reading: string) => ['prove volts', 'key on', `drop F1 ${reading}`];
  expect(asked.agrees(drop('17 mV'))).toBe(true);
  expect(asked.agrees(drop('0.0 mV'), noLamp)).toBe(true);
  expect(asked.agrees(drop('17 mV'), noLamp)).toBe(false);
  expect(asked.agrees(drop('200 mV'))).toBe(false);
});

test('when a test lamp hangs on battery plus then a good ground lights it', () => {
  const line = (what: string) => ['prove test lamp', 'out H1', `testlamp H1.31 bat+ ${what}`];
  const ground = asked.open('W8');
  expect(asked.agrees(line('lit'))).toBe(true);
  expect(asked.agrees(line('off'))).toBe(false);
  expect(asked.agrees(line('off'), ground)).toBe(true);
  expect(asked.agrees(line('lit'), ground)).toBe(false);
});
