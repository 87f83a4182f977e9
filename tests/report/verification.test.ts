/** A repair counts as proved only when everything that failed was tried again. */
import { describe, expect, test } from 'vitest';
import type { Event } from '../../src/session/events.js';
import { diagnosisOf, lamp, reportOf, sense, suspect } from './report-case.js';

const diagnosis = diagnosisOf([suspect('X1.1')]);
const repaired: Event = {
  type: 'did',
  action: { do: 'repair', at: 'X1.1', how: 'new pin', minutes: 12, price: 4.5 },
};
const motor = (value: 'runs' | 'stopped'): Event => ({
  type: 'found',
  reading: { kind: 'load', load: 'M2', value },
  when: [['fan', 'on']],
});
const state = (events: readonly Event[], abnormal?: readonly number[]): string =>
  reportOf(
    events,
    abnormal === undefined
      ? diagnosis
      : {
          ...diagnosis,
          findings: abnormal.map((number) => sense(number, true)),
        },
  ).verification.state;

describe('verification', () => {
  test('when no repair was recorded then not verified', () => {
    expect(state([lamp('off'), lamp('lit')])).toBe('not verified');
  });

  test('when the condition was not repeated then not verified', () => {
    expect(state([lamp('off'), repaired])).toBe('not verified');
  });

  test('when it still fails then not verified, and the report says it still fails', () => {
    const report = reportOf([lamp('off'), repaired, lamp('off')], diagnosis);
    expect(report.verification.state).toBe('not verified');
    expect(report.verification.words).toContain('still fails');
  });

  test('when it failed again after a good repeat then the last observation counts', () => {
    expect(state([lamp('off'), repaired, lamp('lit'), lamp('off')])).toBe('not verified');
  });

  test('when only one of two failed conditions was repeated then partly verified', () => {
    expect(state([lamp('off'), motor('stopped'), repaired, lamp('lit')], [2, 3])).toBe('partly verified');
  });

  test('when both were repeated good then verified, with minutes and price', () => {
    const report = reportOf([lamp('off'), motor('stopped'), repaired, lamp('lit'), motor('runs')], {
      ...diagnosis,
      findings: [2, 3].map((number) => sense(number, true)),
    });
    expect(report.verification.state).toBe('verified');
    expect(report).toMatchObject({ repairMinutes: 12, price: 4.5, minutesOpen: 5 });
  });

  test('when the good repeat was made with a jumper on then it does not count', () => {
    const jumper: Event = { type: 'did', action: { do: 'jumper', between: ['S1.1', 'S1.2'] } };
    expect(state([lamp('off'), repaired, jumper, lamp('lit')])).toBe('not verified');
  });
});
