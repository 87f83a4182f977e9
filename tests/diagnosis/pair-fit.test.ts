import { expect, test } from 'vitest';
import { gather } from '../../src/diagnosis/evidence.js';
import { fitBothCourses } from '../../src/diagnosis/pair-fit.js';
import { foldCase } from '../../src/session/fold.js';
import { recordedOf, workbenchOf } from './session-of.js';

const DARK = ['key on', 'gear reverse', 'dead H1 H2', 'prove volts', 'volts bat+ 12.6', 'volts H1.1 0.02'];

async function fitted(lines: readonly string[]) {
  const bench = await workbenchOf('reversing-lamps');
  const pair = ['X3.1 resistance', 'X4.1 resistance'].map((id) =>
    bench.faults.find((fault) => fault.id === id)!,
  );
  const evidence = gather(bench, foldCase(bench.circuit, recordedOf(bench, lines)));
  return fitBothCourses(bench, pair, evidence, [[1e11], [1e11]]).both?.map(({ fall, course }) => ({
    course,
    stands: fall === undefined,
  }));
}

test('when both lamps stay dark then two open feeds fit, always there or not', async () => {
  expect(await fitted(DARK)).toEqual([
    { course: 'steady', stands: true },
    { course: 'comes and goes', stands: true },
  ]);
});

test('when one of two dark lamps lights up for a while then two open feeds fit only as faults that come and go', async () => {
  expect(await fitted([...DARK, 'works H1', 'volts H1.1 12.1', 'dead H1', 'volts H1.1 0.02'])).toEqual([
    { course: 'steady', stands: false },
    { course: 'comes and goes', stands: true },
  ]);
});
