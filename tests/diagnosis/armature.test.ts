/**
 * A click is the armature's: it tells in which state the contacts stand, whatever volts may be at the coil. An armature held by
 * welded contacts answers for itself (common practice, no source).
 */
import { beforeAll, expect, test } from 'vitest';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import type { Evidence } from '../../src/diagnosis/evidence-types.js';
import { gather } from '../../src/diagnosis/evidence.js';
import { withoutFindings } from '../../src/diagnosis/heard.js';
import { foldCase } from '../../src/session/fold.js';
import { diagnosisOf, recordedOf, suspectIds, workbenchOf } from './session-of.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await workbenchOf('horn');
});

const silentHorns = ['B1 silent when horn button pressed', 'B2 silent when horn button pressed'];

test('when the relay clicks then nothing that keeps it from pulling in explains silent horns', () => {
  const coilSide = ['K1.86 resistance', 'K1.85 resistance', 'X1.1 resistance', 'GP2 resistance'];
  expect(suspectIds(diagnosisOf(bench, silentHorns))).toEqual(expect.arrayContaining(coilSide));
  const left = suspectIds(diagnosisOf(bench, [...silentHorns, 'K1 clicks when horn button pressed']));
  for (const id of coilSide) expect(left).not.toContain(id);
  expect(left).toEqual(expect.arrayContaining(['K1.30 resistance', 'K1:30-87 resistance']));
});

test('when the relay stays silent then no fault behind its contacts explains it', () => {
  const left = suspectIds(diagnosisOf(bench, [...silentHorns, 'K1 silent when horn button pressed']));
  expect(left).toContain('K1.86 resistance');
  expect(left).not.toContain('K1.87 resistance');
});

test('when a relay that was silent clicks a moment later then the two are not held together', () => {
  const lines = [...silentHorns, 'K1 silent when horn button pressed', 'K1 clicks when horn button pressed'];
  const { fits, suspects } = diagnosisOf(bench, lines);
  expect(fits).toBe(true);
  expect(suspects.map(({ hypothesis }) => hypothesis)).toContain('K1.86 resistance');
});

test('when a fault falls by what was heard beside a reading then its reason names the click', () => {
  const { fallen } = diagnosisOf(bench, [...silentHorns, 'K1 clicks when horn button pressed']);
  const reason = fallen.find(({ hypothesis }) => hypothesis === 'K1.86 resistance')!.reason;
  expect(reason).toMatchObject({
    finding: 3,
    prediction: 'sounds',
    reading: 'silent (#1) while K1 clicked (#3)',
  });
});

test('when the horns never stop and the relay is silent at the button then welded contacts stay suspected', () => {
  const lines = ['B1 sounds when horn button out', 'K1 silent when horn button pressed'];
  expect(suspectIds(diagnosisOf(bench, lines))).toContain('K1:30-87 stuck');
});

test('when a reading beside the click is taken for wrong then what the click made of it goes with it', () => {
  const evidence = gather(
    bench,
    foldCase(bench.circuit, recordedOf(bench, [...silentHorns, 'K1 clicks when horn button pressed'])),
  );
  const told = ({ steps }: Evidence) =>
    steps.flatMap((step) => (step.kind === 'observation' ? [step.observation] : []));
  const [first] = told(evidence);
  expect(told(evidence).filter(({ retold }) => retold === first!.finding)).toHaveLength(1);
  expect(told(withoutFindings(evidence, [first!.finding]))).toHaveLength(told(evidence).length - 2);
  const click = told(evidence).find(({ shown }) => shown === 'clicks')!;
  const rest = told(withoutFindings(evidence, [click.finding]));
  expect(rest.map(({ heard }) => heard)).toEqual([undefined, undefined]);
});
