/** What is said of a repair that is sooner tried than tested. */
import { expect, test } from 'vitest';
import { showAttempt } from '../../src/cli/show/suggestion.js';
import { advise } from '../../src/planning/next.js';
import { diagnose } from '../../src/diagnosis/diagnose.js';
import { foldCase } from '../../src/session/fold.js';
import { recordedOf, workbenchOf } from '../diagnosis/session-of.js';

test('when one repair is all but sure then no fractions of a minute are promised, but next to no time', async () => {
  const bench = await workbenchOf('reversing-lamps');
  const lines = ['fails H1 H2 when key on, gear reverse', 'prove volts', 'key on', 'gear reverse'];
  const read = ['volts F7.2 12.6', 'volts X2.1h 12.5', 'volts X2.1c 0.02'];
  const session = foldCase(bench.circuit, recordedOf(bench, [...lines, ...read]));
  const diagnosis = diagnose(bench, session);
  const { attempt, tests } = advise(bench, session, diagnosis);
  const shown = showAttempt(diagnosis, attempt, tests[0]).join(' ').replaceAll(/\s+/g, ' ');
  expect(shown).toMatch(/^Try first: clean and seat the pins of connector X2/);
  expect(shown).toContain('Sooner than any test: next to no time until the right repair is begun');
  expect(shown).toMatch(/by the test below about \S+ min\./);
});
