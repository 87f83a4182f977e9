/** When a repair has shown that its fault was there, and when something else may have cured it. */
import { describe, expect, test } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.js';
import { gather } from '../../src/diagnosis/evidence.js';
import { confirmedBy } from '../../src/diagnosis/proof-of-cause.js';
import { isMissed } from '../../src/diagnosis/proof-of-mending.js';
import { foldCase } from '../../src/session/fold.js';
import { diagnosisOf, recordedOf, suspectIds, workbenchOf } from './session-of.js';

const DEAD = ['pedal down', 'dead H1.54 H2.54 H3'];

async function isProved(fault: string, lines: readonly string[]): Promise<boolean> {
  const bench = await workbenchOf('stop-tail');
  const evidence = gather(bench, foldCase(bench.circuit, recordedOf(bench, lines)));
  return isMissed(
    bench,
    bench.faults.find(({ id }) => id === fault)!,
    evidence,
  );
}

describe('what a repair proves', () => {
  test('when a bad contact was cleaned and the lamps are lit then it was the contact', async () => {
    expect(await isProved('S4.1 resistance', [...DEAD, 'clean S4.1', 'works H1.54 H2.54 H3'])).toBe(true);
  });

  test('when the short would have blown the new fuse too then the repair counts', async () => {
    const lines = [...DEAD, 'repair H1.54 insulated it', 'new F4', 'works H1.54 H2.54 H3'];
    expect(await isProved('H1.54 short', lines)).toBe(true);
  });

  test('when the new fuse alone would have done then the repair counts only after the horn was sounded', async () => {
    const lines = [...DEAD, 'repair B1.1 insulated it', 'new F4', 'works H1.54 H2.54 H3'];
    expect(await isProved('B1.1 short', lines)).toBe(false);
    expect(await isProved('B1.1 short', [...lines, 'horn button pressed', 'works B1'])).toBe(true);
  });

  test('when it stayed dark after the cleaning and came good later then it was not the cleaned contact', async () => {
    const lines = [...DEAD, 'clean S4.1', 'dead H1.54', 'clean S4.2', 'works H1.54 H2.54 H3'];
    expect(await isProved('S4.1 resistance', lines)).toBe(false);
    expect(await isProved('S4.2 resistance', lines)).toBe(true);
  });

  test('when the old blown fuse stayed in after the short was mended then the repair still counts', async () => {
    const lines = [...DEAD, 'repair H1.54 insulated it', 'dead H1.54', 'new F4', 'works H1.54 H2.54 H3'];
    expect(await isProved('H1.54 short', lines)).toBe(true);
  });

  test('when nothing was repaired then nothing is proved', async () => {
    expect(await isProved('S4.1 resistance', [...DEAD, 'works H1.54 H2.54 H3'])).toBe(false);
  });
});

test('when a new motor still looks slow, as a good one may, then the old one stays a suspect', async () => {
  const bench = await workbenchOf('starter');
  const lines = ['clutch down', 'key start', 'see M1 stopped', 'new M1', 'see M1 slow'];
  expect(suspectIds(diagnosisOf(bench, lines))).toContain('M1:winding lead resistance');
});

test('when a fan that ran by itself stands still after the repair then the repaired fault is not ruled out by that', async () => {
  const bench = await workbenchOf('radiator-fan');
  const lines = ['key on', 'see M1 runs', 'repair W7 took away a load', 'see M1 stopped'];
  const before = suspectIds(diagnosisOf(bench, lines.slice(0, 2)));
  const wire = before.filter((id) => id.startsWith('W7 '));
  expect(wire.length).toBeGreaterThan(0);
  expect(suspectIds(diagnosisOf(bench, lines))).toEqual(expect.arrayContaining(wire));
});

test('when the battery shows its volts then that confirms no fault of it, though nothing else is left', async () => {
  const bench = await workbenchOf('starter');
  const session = foldCase(
    bench.circuit,
    recordedOf(bench, ['clutch down', 'key start', 'see M1 stopped', 'volts bat+ bat- 4.1']),
  );
  const evidence = gather(bench, session);
  const [leader] = diagnose(bench, session).suspects;
  expect(leader!.hypothesis).toBe('G1:emf resistance');
  expect(confirmedBy(bench, session, evidence, [{ ...leader!, share: 1 }], false)).toEqual(new Set());
});

test('when a new motor cures what was seized or shorted inside it then both are confirmed, for one of them it was', async () => {
  const bench = await workbenchOf('daytime-module');
  const lines = [
    'key on',
    'washer button pressed',
    'see M1 stopped',
    'volts F2.1 bat- 12.4',
    'volts F2.2 bat- 0',
  ];
  const session = foldCase(bench.circuit, recordedOf(bench, [...lines, 'new M1', 'new F2', 'see M1 runs']));
  const { suspects } = diagnose(bench, session);
  const shared = ['M1:winding seized', 'M1.1 short', 'W17 short'].map((id, i) => ({
    ...suspects.find(({ hypothesis }) => hypothesis === id)!,
    share: [0.92, 0.05, 0.03][i]!,
  }));
  const confirmed = confirmedBy(bench, session, gather(bench, session), shared, true);
  expect(confirmed).toEqual(new Set(['M1:winding seized', 'M1.1 short']));
});

test('when a new fuse went in with the new motor then a wire that had blown it too is no less suspect for it', async () => {
  const bench = await workbenchOf('washer');
  const { suspects } = diagnosisOf(bench, [
    ...['key on', 'washer lever front', 'see M1 stopped', 'key off', 'washer lever rest', 'out F1'],
    ...['prove ohms', 'ohms F1.1i F1.2i OL', 'unplug X1', 'ohms X1.1c body 0.5', 'ohms X1.2c body 0.1'],
    ...['new M1', 'new F1', 'plug X1', 'key on', 'washer lever front', 'see M1 runs'],
  ]);
  const wire = suspects.find(({ hypothesis }) => hypothesis === 'W10 short')!;
  expect(wire.soft.map(({ words }) => words)).toEqual([
    'the complaint went away after the fuse it had blown was renewed',
  ]);
  expect(suspects.filter(({ confirmed }) => confirmed)).toEqual([]);
});
