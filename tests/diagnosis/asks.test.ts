import { beforeAll, describe, expect, test } from 'vitest';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { diagnosisOf, workbenchOf } from './session-of.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await workbenchOf('stop-tail');
});
const DEAD = ['pedal down', 'dead H1.54'];
const askedAfter = (...lines: string[]) => diagnosisOf(bench, lines).asks.join(' ');

describe('proof of the meter', () => {
  // An ohmmeter is proved with its leads together, never on a live point (common practice, no source).
  test('when OL was read then the leads are to be held together, and no live point is named', () => {
    const asked = askedAfter(...DEAD, 'pedal up', 'out H1', 'ohms H1.54i H1.31i OL');
    expect(asked).toMatch(/touch the two leads together.*prove ohms/);
    expect(asked).not.toContain('live');
  });

  test('when no volts were read then a live point is asked for', () => {
    expect(askedAfter(...DEAD, 'volts H1.54 0.0')).toMatch(/live, then type: prove volts/);
  });

  test('when a test lamp in place of a fuse stayed off then the lamp is to be proved', () => {
    expect(askedAfter(...DEAD, 'lamp F4', 'fuselamp F4 off')).toContain('prove testlamp');
  });

  test('when the meter was proved then nothing is asked', () => {
    expect(askedAfter(...DEAD, 'prove volts', 'volts H1.54 0.0')).toBe('');
  });
});

test('when something was repaired then the failed condition is to be repeated, until it is', () => {
  const repaired = [...DEAD, 'pedal up', 'new H1'];
  const asked = askedAfter(...repaired);
  expect(asked).toContain('works H1.54 when pedal down');
  expect(askedAfter(...repaired, 'works H1.54 when pedal down')).toBe('');
});

test('when nothing was said of the vehicle then the complaint is asked for', () => {
  expect(askedAfter()).toContain('Say what fails');
});
