/** A question counts as asked once its answer was written down as the meter showed it. */
import { expect, test } from 'vitest';
import { forecasterOf } from '../../src/planning/forecast.js';
import { askedAlready, questionOf } from '../../src/planning/questions.js';
import { toSuggestion } from '../../src/planning/to-suggestion.js';
import { foldCase } from '../../src/session/fold.js';
import { recordedOf, workbenchOf } from '../diagnosis/session-of.js';

const WEIGHED = {
  minutes: 1,
  opening: 0,
  disturbs: false,
  opens: [],
  effort: 1,
  gain: 1,
  separates: true,
  value: 1,
};
const FAILED = ['fails H1.54 H2.54 H3 when pedal down', 'pedal down'];

async function isAsked(...lines: readonly string[]): Promise<boolean> {
  const bench = await workbenchOf('stop-tail');
  const session = foldCase(bench.circuit, recordedOf(bench, [...FAILED, ...lines]));
  const forecaster = forecasterOf(bench, session);
  const value = { value: 0, step: 0.01 };
  const reading = { kind: 'volts', red: 'F4.2', black: 'bat-', value } as const;
  const question = questionOf(bench, forecaster, session.now, reading);
  return askedAlready(bench, forecaster, session).has(question);
}

test('when volts were read to a tenth then they are not asked for again', async () => {
  expect(await isAsked('volts F4.2 12.4')).toBe(true);
});

test('when only whole volts were typed then they are asked for again, and not a fourth time', async () => {
  expect(await isAsked('volts F4.2 12')).toBe(false);
  expect(await isAsked('volts F4.2 12', 'volts F4.2 12')).toBe(false);
  expect(await isAsked('volts F4.2 12', 'volts F4.2 12', 'volts F4.2 12')).toBe(true);
});

test('when a test lamp was across then the bare volts are another question', async () => {
  expect(await isAsked('volts loaded F4.2 12.4')).toBe(false);
});

test('when a reading is suggested again for its digits then the suggestion says so', async () => {
  const bench = await workbenchOf('stop-tail');
  const wordsAfter = (...lines: readonly string[]) => {
    const session = foldCase(bench.circuit, recordedOf(bench, [...FAILED, ...lines]));
    const value = { value: 0, step: 0.01 };
    const reading = { kind: 'volts', red: 'F4.2', black: 'bat-', value } as const;
    const candidate = {
      line: 'volts F4.2',
      words: 'volts',
      setUp: session.now,
      reading,
      bare: 'probe',
      at: [],
    } as const;
    return toSuggestion(bench, session, { ...WEIGHED, candidate }, []).words;
  };
  expect(wordsAfter('volts F4.2 12')).toContain('digits');
  expect(wordsAfter('volts F4.2 12.4')).toBe('volts');
});
