/** Readings as they are typed at the bench: value, and the unit of the last digit that was read. */
import { describe, expect, test } from 'vitest';
import {
  parseContinuity,
  parseMeter,
  parseOhms,
  parseSkipReason,
  parseTestLamp,
} from '../../src/session/parse-reading.js';

const typed = (value: number, step: number) => ({ value, step });

describe('volts', () => {
  test.each([
    ['11.4', typed(11.4, 0.1)],
    ['11,4', typed(11.4, 0.1)],
    ['11.40', typed(11.4, 0.01)],
    ['12', typed(12, 1)],
    ['11.4V', typed(11.4, 0.1)],
    ['11.4 v', typed(11.4, 0.1)],
    ['11.4 volts', typed(11.4, 0.1)],
    ['450mV', typed(0.45, 0.001)],
    ['450 mv', typed(0.45, 0.001)],
    ['0.3mV', typed(0.0003, 0.0001)],
    ['2V5', typed(2.5, 0.1)],
    ['-0.3', typed(-0.3, 0.1)],
    ['− 0.3', typed(-0.3, 0.1)],
    ['+12.6', typed(12.6, 0.1)],
    ['.5', typed(0.5, 0.1)],
    ['0', typed(0, 1)],
    ['-0.00', typed(0, 0.01)],
  ])('when %j is typed then it is understood', (text, value) => {
    expect(parseMeter(text, 'volts')).toEqual({ ok: true, value: { value, battery: undefined } });
  });

  test('when a second value follows a slash then it is the battery', () => {
    expect(parseMeter('11.8/12.4', 'volts')).toEqual({
      ok: true,
      value: { value: typed(11.8, 0.1), battery: typed(12.4, 0.1) },
    });
    expect(parseMeter('450mV / 12,41 V', 'volts')).toEqual({
      ok: true,
      value: { value: typed(0.45, 0.001), battery: typed(12.41, 0.01) },
    });
  });

  test.each([
    ['', 'There is no value'],
    ['abc', '"abc" is not a reading'],
    ['12..4', '"12..4" is not a reading'],
    ['1.2.3', '"1.2.3" is not a reading'],
    ['11.4 ohm', '"11.4 ohm" is in ohms, but this reading is in volts'],
    ['11.4 x', '"x" is not a unit of volts'],
    ['12400', '12400 is more than any reading in volts can be here'],
    ['OL', '"OL" on a volts range only says that the meter was over its range'],
    ['1/2/3', '"1/2/3" has more than one "/"'],
    ['12/', 'There is no value'],
    ['1e3', '"e3" is not a unit of volts'],
  ])('when %j is typed then it is refused', (text, message) => {
    expect(parseMeter(text, 'volts')).toMatchObject({ ok: false, message });
  });
});

describe('amps', () => {
  test.each([
    ['1.75', typed(1.75, 0.01)],
    ['20mA', typed(0.02, 0.001)],
    ['3 A', typed(3, 1)],
  ])('when %j is typed then it is understood', (text, value) => {
    expect(parseMeter(text, 'amps')).toMatchObject({ ok: true, value: { value } });
  });
  test('when a sign is typed then the plain number is asked for', () => {
    expect(parseMeter('-1.2', 'amps')).toMatchObject({ ok: false, mend: 'Type 1.2.' });
  });
});

describe('ohms', () => {
  test.each([
    ['0.3 ohm', typed(0.3, 0.1)],
    ['0,3', typed(0.3, 0.1)],
    ['1.2k', typed(1200, 100)],
    ['1k2', typed(1200, 100)],
    ['4R7', typed(4.7, 0.1)],
    ['10 kΩ', typed(10_000, 1000)],
    ['2M2', typed(2_200_000, 100_000)],
    ['-0.1', typed(-0.1, 0.1)],
    ['OL', 'OL'],
    ['0L', 'OL'],
    ['o.l', 'OL'],
    ['open', 'OL'],
    ['∞', 'OL'],
  ])('when %j is typed then it is understood', (text, value) => {
    expect(parseOhms(text)).toEqual({ ok: true, value });
  });
  test.each([
    ['beep', '"beep" is a continuity answer, not ohms'],
    ['-12', 'A reading of -12 ohms means the circuit was live'],
    ['3 V', '"3 V" is in volts, but this reading is in ohms'],
    ['1/2', 'Battery volts do not go with a reading in ohms'],
  ])('when %j is typed then it is refused', (text, message) => {
    expect(parseOhms(text)).toMatchObject({ ok: false, message });
  });
});

test.each([
  ['beep', 'beep'],
  ['yes', 'beep'],
  ['Y', 'beep'],
  ['no beep', 'no beep'],
  ['no', 'no beep'],
  ['OL', 'no beep'],
])('when the buzzer %j then it is understood', (text, value) => {
  expect(parseContinuity(text)).toEqual({ ok: true, value });
});

test('when ohms are typed for a buzzer then the right word is named', () => {
  expect(parseContinuity('0.3')).toMatchObject({ ok: false, mend: 'To record ohms type: ohms A B 0.3' });
});

test.each([
  ['lit', 'lit'],
  ['bright', 'lit'],
  ['faint', 'dim'],
  ['dark', 'off'],
])('when a test lamp is %j then it is understood', (text, value) => {
  expect(parseTestLamp(text)).toEqual({ ok: true, value });
});

test.each([
  ['cannot tell', 'cannot tell'],
  ["can't reach", 'cannot reach'],
  ['not sure', 'cannot tell'],
  ['No Tool', 'no tool'],
  ['11.4', undefined],
])('when the answer is %j then the reason is %j', (text, reason) => {
  expect(parseSkipReason(text)).toBe(reason);
});
