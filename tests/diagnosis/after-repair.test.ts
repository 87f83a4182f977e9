/** A repair that did not cure: the second fault, and the one that was repaired badly. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { drivenSetUps, gather } from '../../src/diagnosis/evidence.js';
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

const DIM_INSTRUMENTS = [
  ...['key on', 'dead H1', 'prove volts', 'key off', 'ohms F1.2 body 1707', 'key on', 'volts X1.1c 11.28'],
  ...['volts H1.1 9.51', 'tank full', 'volts X1.1c 11.32', 'volts bat+ X1.1c 0.0001'],
];

test('when two joints share the fault and the first is cleaned then the second is found at its own severity', async () => {
  // 1.8 kohm and 9.8 kohm in row: neither is an open circuit, and neither is worth guessing.
  const gauges = await workbenchOf('fuel-gauge');
  const cleaned = diagnosisOf(gauges, [...DIM_INSTRUMENTS, 'clean SP1', 'dead H1', 'clean W5', 'dead H1']);
  expect(suspectIds(cleaned)).toContain('GP1/W2 resistance');
});

test('when a flat battery is renewed and a lamp stays dark then a broken lead of that lamp stands beside it', async () => {
  const gauges = await workbenchOf('fuel-gauge');
  const seen = ['key on', 'dead H1', 'prove volts', 'volts bat+ bat- 1.067', 'new G1', 'dead H1'];
  const left = diagnosisOf(gauges, seen);
  const second = left.suspects.find(({ hypothesis }) => hypothesis === 'H1:1 lead open');
  expect(second?.besides?.map(({ id }) => id)).toEqual(['G1:emf flat']);
});

test('when the switch that blew the fuse is renewed and the blown fuse is put back then the switch was the cause still', async () => {
  const window = await workbenchOf('power-window');
  const seen = [
    ...['key on', 'driver switch down', 'M1 stopped', 'prove volts', 'volts F1.2 0'],
    ...[
      'knowngood F1',
      'passenger switch up',
      'H1 lit',
      'passenger switch rest',
      'new S3',
      'in F1',
      'M1 stopped',
      'driver switch rest',
    ],
    ...['key off', 'ohms SP2 body 12.5'],
  ];
  const evidence = gather(window, foldCase(window.circuit, recordedOf(window, seen)));
  const switched = window.faults.find(({ id }) => id === 'S3:30-4 stuck')!;
  expect(judge(window, [switched], evidence).fall).toBeUndefined();
});

const FLAT_AND_BROKEN = [
  ...['key on', 'tank full', 'coolant hot', 'H1 off', 'E1 E2 dead', 'prove volts', 'prove ohms'],
  ...['key off', 'tank empty', 'coolant cold', 'ohms F1.2 body 209', 'key on', 'coolant hot'],
  ...['volts H1.1 H1.31 1.269', 'volts H1.1 1.269', 'volts X1.1c 1.269', 'volts X1.1h 1.269'],
  ...['clean W4', 'tank full', 'H1 off', 'volts X1.4h 0.449', 'volts F1.1 1.269', 'volts bat+ bat- 1.27'],
  ...['new G1', 'H1 off'],
];

test('when a repair mends one of two faults, of which neither explained everything, then the other is found beside it', async () => {
  const gauges = await workbenchOf('fuel-gauge');
  const beside = (lines: readonly string[]) =>
    diagnosisOf(gauges, lines).suspects.find(({ hypothesis }) => hypothesis === 'H1:1 lead open')?.besides;
  expect(beside(FLAT_AND_BROKEN)?.map(({ id }) => id)).toEqual(['G1:emf flat']);
  // Nor is it forgotten once it is mended.
  expect(beside([...FLAT_AND_BROKEN, 'new H1', 'H1 lit'])?.map(({ id }) => id)).toEqual(['G1:emf flat']);
});

test('when many places of one run were repaired in turn then the fault beside the last ones is found too', async () => {
  const horn = await workbenchOf('horn');
  const repaired = (...at: string[]) => at.flatMap((one) => [`clean ${one}`, 'B2 silent']);
  const { suspects } = diagnosisOf(horn, [
    ...['horn button pressed', 'bonnet open', 'B2 silent', 'K1 silent', 'H1 lit', 'prove volts'],
    ...['volts K1.85 12.56', 'volts GP4 0.0119', ...repaired('X1', 'GP2'), 'new S1', 'B2 silent'],
    ...[...repaired('S1.1'), 'volts bat+ K1.85 0.0144', ...repaired('S1.2', 'W6', 'W7', 'W8', 'W9')],
  ]);
  const second = suspects.find(({ hypothesis }) => hypothesis === 'W5 resistance');
  expect(second?.besides).toHaveLength(1);
});

test('when what was mended is touched again then it does not come back beside a second fault', async () => {
  // A dead supply pin of the module, and a splice before it that was cleaned: a bad contact of the relay keeps no coil from clicking.
  const pump = await workbenchOf('fuel-pump');
  const seen = [
    ...['key on', 'E1 cold', 'K1 silent', 'prove volts', 'volts SP3 A1.15 12.4'],
    ...['clean SP3', 'E1 cold', 'clean W8', 'E1 cold', 'K1 silent'],
  ];
  const ids = suspectIds(diagnosisOf(pump, seen));
  expect(ids).toContain('A1.15 resistance');
  expect(ids).not.toContain('K1.30 resistance');
});

test('when a wire is cleaned then the pin at its end is not taken for repaired in vain', async () => {
  const pump = await workbenchOf('fuel-pump');
  const { suspects } = diagnosisOf(pump, ['key on', 'E1 cold', 'K1 silent', 'clean W8', 'E1 cold']);
  const notes = (id: string) =>
    suspects.find(({ hypothesis }) => hypothesis === id)!.soft.map(({ words }) => words);
  expect(notes('W8 resistance')).toContain('it was repaired, and the complaint stayed');
  expect(notes('A1.15 resistance')).toEqual([]);
});

test('when a fuse is fed only by two controls together then the owner may have blown it', async () => {
  const driven = drivenSetUps(await workbenchOf('two-grounds'));
  for (const lever of ['left', 'right'])
    expect(
      driven.some(({ controls }) => controls.get('key') === 'on' && controls.get('turn lever') === lever),
    ).toBe(true);
});

test('when a known-good item gives way to a new one then the own one counts as renewed', async () => {
  const pump = await workbenchOf('fuel-pump');
  const lines = ['key on', 'E1 cold', 'knowngood K1', 'E1 cold', 'new K1', 'E1 cold'];
  const { steps } = gather(pump, foldCase(pump.circuit, recordedOf(pump, lines)));
  const coil = pump.faults.find(({ id }) => id === 'K1:30-87 resistance')!;
  expect(steps.some((step) => step.kind === 'change' && step.mends?.(coil) === true)).toBe(true);
});

test('when a fuse was out and in again and all is as before then its contacts are no likelier than before', () => {
  const before = ['key on', 'gear reverse', 'dead H1 H2', 'volts F7.2 bat- 3.1/12.4'];
  const shareOf = (lines: readonly string[]) =>
    diagnosisOf(bench, lines)
      .suspects.filter(({ hypothesis }) => /^F7\.[12] resistance$/.test(hypothesis))
      .reduce((sum, { share }) => sum + share, 0);
  const share = shareOf(before);
  expect(share).toBeGreaterThan(0);
  // It may have any ohms now, where it had to have some before: that is no reason to believe in it.
  expect(shareOf([...before, 'out F7', 'in F7', 'dead H1'])).toBeLessThanOrEqual(share * 1.05);
});

test('when a complaint that proves nothing is as before after a repair then readings go on narrowing what was not touched', async () => {
  // A healthy module may leave this lamp dark too, for all that the drawing says.
  const module = await workbenchOf('daytime-module');
  const found = ['key on', 'dead H1 H2 H3', 'clean GP3', 'dead H3', 'key off', 'testlamp A1.30 bat- lit'];
  const joint = module.faults.find(({ id }) => id === 'SP1/W3 resistance')!;
  const rangeOf = (lines: readonly string[]) =>
    judge(module, [joint], gather(module, foldCase(module.circuit, recordedOf(module, lines)))).severity[0]!;
  expect(rangeOf(found.slice(0, -1)).high).toBeGreaterThan(1e4);
  expect(rangeOf(found).high).toBeLessThan(300);
});

test('when a repair cures one of two loads then a fault of the other is suspected, not only what happened to be away', async () => {
  const horn = await workbenchOf('horn');
  const silent = [
    'horn button pressed',
    'bonnet open',
    'K1 silent',
    'B1 silent',
    'prove volts',
    'volts bat+ 12.3',
  ];
  const lines = [...silent, 'volts bat+ K1.85 0.01', 'clean GP2', 'K1 clicks', 'B1 silent'];
  const { suspects } = diagnosisOf(horn, lines);
  const second = suspects.find(({ hypothesis }) => hypothesis === 'X2.2 resistance');
  expect(second?.besides?.map(({ id }) => id)).toEqual(['GP2 resistance']);
  expect(suspects.map(({ hypothesis }) => hypothesis)).toContain('X1.1 resistance');
});

test('when a short would have had to burn its wire to read so then a bad ground comes first beside a flat battery', async () => {
  const lamps = await workbenchOf('headlamps-switch');
  const dark = [
    'lights on',
    'beam main',
    'dead H3 H1.56a H1.56b H2.56a',
    'beam dipped',
    'dead H1.56b H2.56b',
  ];
  const renewed = [...dark, 'prove volts', 'volts bat+ 2.02', 'replace G1', 'H1.56b lit', 'H2.56b dim'];
  const read = ['volts GP3 4.3/12', 'volts X2.31h 4.4/12', 'clamp W24 1.4', 'volts S1.56 11.7'];
  const { suspects } = diagnosisOf(lamps, [...renewed, ...read]);
  expect(suspects[0]!.hypothesis).toBe('G1:emf flat + GP3 resistance');
  const burning = suspects.filter(({ faults }) => faults.some(({ id }) => id === 'S1.56 short'));
  expect(burning.reduce((sum, { share }) => sum + share, 0)).toBeLessThan(0.01);
});

test('when what was repaired explained most of what failed, but not all, then the second fault is suspected beside that', async () => {
  // Pins 2 and 3 of X1 swapped at times and a short at H1.1, readings as a simulated vehicle gave them.
  const gauges = await workbenchOf('fuel-gauge');
  const shorted = [
    ...['key on', 'tank full', 'H1 off', 'E1 dead', 'E2 dead', 'tank empty', 'H1 off', 'coolant hot'],
    ...['H1 off', 'E2 dead', 'tank full', 'coolant cold', 'key off', 'tank empty', 'prove ohms'],
    ...['ohms F1.2 body 0.3', 'ohms F1.1 body OL', 'take out F1', 'key on', 'ohms F1.2 body 0.3', 'refit F1'],
    ...['take out H1', 'unplug X1', 'key off', 'ohms X1.1c body OL', 'plug X1', 'key on'],
    ...['test lamp H1.1 to bat+ dim', 'repair W4 repair wire W4 (F1.2 to X1.1h)', 'new F1', 'refit H1'],
    ...['tank full', 'H1 off', 'prove volts', 'volts E1.31 0.00/12.1', 'volts F1.1 12.1', 'volts F1.2 0.00'],
    ...['key off', 'tank empty', 'ohms X1.1h body 0.3', 'take out F1', 'unplug X1', 'ohms X1.1h body OL'],
    ...['plug X1', 'key on', 'ohms F1.2 body 0.2'],
  ];
  const mended = [
    'repair H1 mend the holder of H1 (lamp in the instruments) at terminal 1',
    ...['new F1', 'tank full', 'H1 lit', 'tank empty', 'H1 off', 'key off', 'ohms X1.3h body 10.0'],
    ...['ohms F1.2 body 3.4', 'ohms X1.3c body 0.2', 'ohms H1.31 body 10.1'],
  ];
  const { suspects } = diagnosisOf(gauges, [...shorted, ...mended]);
  expect(suspects.map(({ hypothesis }) => hypothesis)).toEqual(['X1.2 crossed X1.3']);
  expect(suspects[0]!.besides?.map(({ id }) => id)).toEqual(['H1.1 short']);
});
