/** A repair that did not cure: the second fault, and the one that was repaired badly. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { gather } from '../../src/diagnosis/evidence.js';
import { judge } from '../../src/diagnosis/verdict.js';
import { foldCase } from '../../src/session/fold.js';
import { diagnosisOf, recordedOf, suspectIds, workbenchOf } from './session-of.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await workbenchOf('reversing-lamps');
});

describe('after a repair in vain', () => {
  const found = [
    'key on',
    'gear reverse',
    'dead H1 H2',
    'volts GP1 body -12.6/12.6',
    'clean GP1',
    'dead H1',
    'works H2',
  ];

  test('when the ground was bad and one lamp stays dead then what is left over is suspected beside it', () => {
    const left = diagnosisOf(bench, found);
    const second = left.suspects.find(({ hypothesis }) => hypothesis === 'X3.1 resistance');
    expect(second?.besides?.map(({ id }) => id)).toEqual(['GP1 resistance']);
    expect(suspectIds(left)).not.toContain('X4.1 resistance');
  });

  test('when a repair fails with nothing else to blame then the repaired fault stays in the list', () => {
    const ids = suspectIds(diagnosisOf(bench, [...found.slice(0, 5), 'dead H1 H2']));
    expect(ids).toContain('GP1 resistance');
  });
});

test('when a bad contact keeps a dead short from blowing the fuse then the pair is kept down to the dead short', async () => {
  const lamps = await workbenchOf('stop-tail');
  const seen = ['pedal down', 'dead H1.54 H2.54 H3', 'horn button pressed', 'works B1'];
  const evidence = gather(lamps, foldCase(lamps.circuit, recordedOf(lamps, seen)));
  const pair = ['X1.1 resistance', 'H1.54 short'].map((id) => lamps.faults.find((fault) => fault.id === id)!);
  const { fall, severity } = judge(lamps, pair, evidence);
  expect(fall).toBeUndefined();
  expect(severity[1]!.low).toBeLessThanOrEqual(0.001);
});
