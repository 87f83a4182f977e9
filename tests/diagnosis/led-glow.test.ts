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

test('when a lamp with its plus on the other side is dark then an LED fitted by mistake explains it', async () => {
  // Switched in its ground: the current runs the other way through the holder, and an LED lets none through.
  const bench = await workbenchOf('headlamps-ground');
  const lines = ['lights on', 'beam main', 'see H1.56a lit', 'see H2.56a off'];
  expect(suspectIds(diagnosisOf(bench, lines))).toContain('H2:56a wrong LED');
});
