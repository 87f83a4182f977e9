import { expect, test } from 'vitest';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';

test.each([
  ['dim', true],
  ['lit', false],
])(
  'when the roof lamp is %s with its switch off then an LED fitted by mistake explains it: %s',
  async (word, explains) => {
    // A leak of a megohm is microamperes: an LED glows by them, a filament does not (common practice, no source).
    const bench = await workbenchOf('interior-lamps');
    const lines = ['roof lamp off', `H1 ${word}`];
    const named = suspectIds(diagnosisOf(bench, lines)).includes('H1:1 wrong LED');
    expect(named).toBe(explains);
  },
);
