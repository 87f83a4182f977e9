/** One of two loads is well again and the other is not: the complaint has not gone, and nobody shakes the vehicle to bring it back. */
import { expect, test } from 'vitest';
import { advise } from '../../src/planning/next.js';
import { diagnose } from '../../src/diagnosis/diagnose.js';
import { foldCase } from '../../src/session/fold.js';
import { recordedOf, workbenchOf } from './session-of.js';

async function assessed(lines: readonly string[]) {
  const bench = await workbenchOf('accessory-socket');
  const session = foldCase(bench.circuit, recordedOf(bench, lines));
  const diagnosis = diagnose(bench, session);
  return { gone: diagnosis.gone, advice: advise(bench, session, diagnosis) };
}

const COMPLAINT = ['E2 dead', 'K1 silent', 'key on', 'E1 dead', 'E2 dead', 'K1 clicks', 'H1 lit'];
const MEASURED = ['prove volts', 'volts F2.1 F2.2 0/12.00', 'volts F2.1 0.0', 'clean SP1'];

test('when a repair has cured one load and another fails as before then the complaint has not gone', async () => {
  const { gone, advice } = await assessed([...COMPLAINT, ...MEASURED, 'E1 dead', 'E2 works']);
  expect(gone).toBe(false);
  expect(advice.tests.length).toBeGreaterThan(0);
  for (const { actions } of advice.tests) expect(actions.map((action) => action.do)).not.toContain('wiggle');
});

test('when something is taken out after that then it has not gone either', async () => {
  const lines = [...COMPLAINT, ...MEASURED, 'E1 dead', 'E2 works', 'take out F1', 'refit F1'];
  expect((await assessed(lines)).gone).toBe(false);
});

test('when all that failed works again then it has gone', async () => {
  const lines = [...COMPLAINT, ...MEASURED, 'E1 works', 'E2 works'];
  expect((await assessed(lines)).gone).toBe(true);
});

test('when one load comes good by itself then what was seen of another before that does not count', async () => {
  const lines = [...COMPLAINT, 'prove volts', 'volts bat+ 12.4', 'E2 works'];
  expect((await assessed(lines)).gone).toBe(true);
});

test('when one load is shaken to life then only what was seen of another since counts', async () => {
  expect((await assessed([...COMPLAINT, 'wiggle SP1', 'E2 works'])).gone).toBe(true);
  expect((await assessed([...COMPLAINT, 'wiggle SP1', 'E1 dead', 'E2 works'])).gone).toBe(false);
});

test('when what was cured and what fails still are written down in either order then the same is concluded', async () => {
  const bench = await workbenchOf('reversing-lamps');
  const found = ['key on', 'gear reverse', 'dead H1 H2', 'volts GP1 body -12.6/12.6', 'clean GP1'];
  const concluded = (...looks: string[]) => {
    const { gone, suspects } = diagnose(
      bench,
      foldCase(bench.circuit, recordedOf(bench, [...found, ...looks])),
    );
    return { gone, suspects: suspects.map(({ hypothesis, share }) => [hypothesis, share.toFixed(6)]) };
  };
  expect(concluded('dead H1', 'works H2')).toEqual(concluded('works H2', 'dead H1'));
});
