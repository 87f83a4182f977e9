import { beforeAll, describe, expect, test } from 'vitest';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';

// Both cases: common practice, no source. The recorded sessions stand in examples/.
let bench: Workbench;
beforeAll(async () => {
  bench = await workbenchOf('stop-tail');
});

describe('only the left stop lamp is dead', () => {
  const seen = ['fails H1.54 when pedal down', 'works H2.54 H3 when pedal down'];

  test('when the other side works then what both share is not suspected on its own, without a meter', () => {
    const parts = new Set(diagnosisOf(bench, seen).suspects.map(({ faults }) => faults[0]!.part));
    for (const shared of ['G1', 'GP1', 'F4', 'S4', 'X1', 'W6', 'W7', 'W8'])
      expect(parts).not.toContain(shared);
    for (const own of ['H1', 'X3']) expect(parts).toContain(own);
  });

  test('when the connector is unplugged and shows full volts then no poor contact is cleared', () => {
    const before = suspectIds(diagnosisOf(bench, [...seen, 'unplug X3']));
    const after = suspectIds(
      diagnosisOf(bench, [...seen, 'unplug X3', 'volts X3.1h 12.4/12.4 when pedal down']),
    );
    const contacts = before.filter((id) => /^(X3\.1|H1\.54|H1\.31|SP3\/W\d+|W9) resistance$/.test(id));
    expect(contacts.length).toBeGreaterThan(3);
    for (const id of contacts) expect(after).toContain(id);
  });

  test('when full volts stand at the loaded lamp and none at its ground then only its own contacts and filament are left', () => {
    const left = suspectIds(
      diagnosisOf(bench, [
        ...seen,
        'volts H1.54 12.3/12.4 when pedal down',
        'volts H1.31 0.03 when pedal down',
      ]),
    );
    expect(left).toContain('H1.54 resistance');
    expect(left).toContain('H1.31 resistance');
    expect(left.every((id) => id.startsWith('H1'))).toBe(true);
  });
});

describe('no stop lamp at all', () => {
  const seen = [
    'fails H1.54 H2.54 H3 when pedal down',
    'works B1 when horn button pressed',
    'volts S4.1 12.3/12.4 when pedal down',
    'pedal down',
    'jumper S4.1 S4.2',
    'works H1.54 H2.54 H3',
    'unjumper',
  ];

  test('when a jumper across the switch lights the lamps then the switch and its two contacts lead', () => {
    const { groups } = diagnosisOf(bench, seen);
    expect(groups.slice(0, 3).every(({ suspects }) => suspects[0]!.faults[0]!.part === 'S4')).toBe(true);
    expect(groups.slice(0, 3).reduce((sum, { share }) => sum + share, 0)).toBeGreaterThan(0.8);
  });

  test('when it works again after refitting then the touched lead and nothing is confirmed', () => {
    const { suspects, verified } = diagnosisOf(bench, [
      ...seen,
      'pedal up',
      'out S4',
      'in S4',
      'works H1.54 H2.54 H3 when pedal down',
    ]);
    const leaders = suspects.slice(0, 3);
    expect(leaders.map(({ faults }) => faults[0]!.part)).toEqual(['S4', 'S4', 'S4']);
    expect(leaders.every(({ touched }) => touched)).toBe(true);
    expect(suspects.some(({ confirmed }) => confirmed)).toBe(false);
    expect(verified).toBe(false);
  });
});

describe('zeros', () => {
  const zero = ['fails H1.54 H2.54 H3 when pedal down', 'volts S4.1 0.00 when pedal down'];

  test('when a zero comes from a meter that was never proved then it rules nothing out and the proof is asked for', () => {
    const without = suspectIds(diagnosisOf(bench, zero.slice(0, 1)));
    const diagnosis = diagnosisOf(bench, zero);
    expect(new Set(suspectIds(diagnosis))).toEqual(new Set(without));
    expect(diagnosis.asks.join()).toContain('prove volts');
  });

  test('when the meter is then proved then the zero counts', () => {
    const proved = suspectIds(diagnosisOf(bench, [...zero, 'prove volts']));
    expect(proved).not.toContain('S4:1-2 resistance');
    expect(proved.length).toBeLessThan(suspectIds(diagnosisOf(bench, zero)).length);
  });
});

test('when two lamps fail for two reasons then no single fault fits and pairs are named', () => {
  const diagnosis = diagnosisOf(bench, [
    'fails H1.54 when pedal down',
    'works H2.54 H3 when pedal down',
    'fails B1 when horn button pressed',
    'volts S5.1 12.4/12.4 when horn button pressed',
  ]);
  expect(diagnosis.paired).toBe(true);
  expect(diagnosis.fits).toBe(true);
  expect(diagnosis.suspects.every(({ faults }) => faults.length === 2)).toBe(true);
  expect(diagnosis.pairsExamined.of).toBeGreaterThan(diagnosis.pairsExamined.done);
});

test('when findings come in another order then the same faults stand', () => {
  const lines = [
    'fails H1.54 when pedal down',
    'works H2.54 when pedal down',
    'volts H1.31 4.1/12.4 when pedal down',
    'volts X3.1c 12.1/12.4 when pedal down',
  ];
  const forward = suspectIds(diagnosisOf(bench, lines)).sort();
  const back = suspectIds(diagnosisOf(bench, [...lines].reverse())).sort();
  expect(back).toEqual(forward);
});
