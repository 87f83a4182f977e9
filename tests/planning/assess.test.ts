/** What fits only at the far edge of what can be stays a suspect, and counts for less. */
import { expect, test } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.js';
import { reweigh } from '../../src/diagnosis/rank.js';
import { assess } from '../../src/planning/assess.js';
import { foldCase } from '../../src/session/fold.js';
import { recordedOf, suspectIds, workbenchOf } from '../diagnosis/session-of.js';
import { suspect } from '../report/report-case.js';

const list = [
  { ...suspect('A'), share: 0.6, measuredShare: 0.6 },
  { ...suspect('B'), share: 0.3, measuredShare: 0.3 },
  { ...suspect('C'), share: 0.1, measuredShare: 0.1 },
];
const shares = (atEdge: readonly (readonly number[] | undefined)[]) =>
  Object.fromEntries(reweigh(list, atEdge).map(({ hypothesis, share }) => [hypothesis, share]));

test('when a suspect fits a finding less well than the best then it counts for less, and findings that all miss count for none', () => {
  const weighed = shares([[4, 7], [4], [4]]);
  expect(weighed['A']! / weighed['B']!).toBeCloseTo((0.3 * 0.6) / 0.3);
  expect(weighed['B']! / weighed['C']!).toBeCloseTo(3);
});

test('when suspects were not worked out then together they keep their part', () => {
  const weighed = shares([[4, 7], [4], undefined]);
  expect(weighed['C']).toBeCloseTo(0.1);
  expect(shares([undefined, undefined, undefined])).toEqual({ A: 0.6, B: 0.3, C: 0.1 });
});

/** A sensor input a little off would not leave the coil's feed dead, but for a relay that swings at the edge of its volts. */
const lines = [
  ...['key on', 'coolant hot', 'intake air cold', 'M1 stopped', 'K1 silent', 'prove volts'],
  ...['volts bat+ 12.64', 'volts A1.7 12.61', 'volts bat+ A1.7 0.02', 'volts A1.31 0.00'],
];

test('when findings fit one suspect better than others then nothing falls, the order changes and the findings are named', async () => {
  const bench = await workbenchOf('coolant-sensor');
  const session = foldCase(bench.circuit, recordedOf(bench, lines));
  const [plain, weighed] = [diagnose(bench, session), assess(bench, session)];
  expect(new Set(suspectIds(weighed))).toEqual(new Set(suspectIds(plain)));
  expect(weighed.suspects.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1);
  const before = (id: string) => plain.suspects.find(({ hypothesis }) => hypothesis === id)!;
  const less = weighed.suspects.filter(({ atEdge }) => atEdge !== undefined);
  expect(less.length).toBeGreaterThan(0);
  for (const one of less.slice(0, 3)) {
    expect(one.share).toBeLessThan(before(one.hypothesis).share);
    for (const number of one.atEdge!) expect(weighed.findings.map((sense) => sense.number)).toContain(number);
  }
});
