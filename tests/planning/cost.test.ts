/** The minutes of a test: usual ones, a circuit's own, and what the place of the last step has to do with it. */
import { beforeAll, expect, test } from 'vitest';
import type { Circuit } from '../../src/circuit/circuit.js';
import { STEP_COSTS, TEST_COSTS, type GivenCosts } from '../../src/circuit/costs.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import type { Candidate } from '../../src/planning/candidate.js';
import { Costs } from '../../src/planning/cost.js';
import { minutesOfMoney } from '../../src/planning/costs-of.js';
import { USUAL_COSTS } from '../../src/planning/usual-costs.js';
import { foldCase } from '../../src/session/fold.js';
import { atRest, type SetUp } from '../../src/session/setup.js';
import { recordedOf, workbenchOf } from '../diagnosis/session-of.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await workbenchOf('stop-tail');
}, 60_000);

const READING = { kind: 'volts', red: 'F4.2', black: 'bat-', value: { value: 0, step: 0.01 } } as const;

function minutes(
  { setUp = {}, at = [], wiggle }: { setUp?: Partial<SetUp>; at?: string[]; wiggle?: Candidate['wiggle'] },
  costs: GivenCosts = {},
  lines: readonly string[] = [],
): number {
  const circuit: Circuit = { ...bench.circuit, costs };
  const session = foldCase(circuit, recordedOf(bench, lines));
  const candidate = { line: '', words: '', reading: READING, bare: 'probe', at, wiggle } as const;
  return new Costs(circuit, session).of({ ...candidate, setUp: { ...atRest(circuit), ...setUp } }).minutes;
}

const placeOf = (part: string): number =>
  bench.circuit.places.get(bench.circuit.parts.get(part)!.place)!.minutes;

test('when nobody says what a step costs then every named one has a usual cost', () => {
  const names = [...Object.keys(TEST_COSTS), ...Object.keys(STEP_COSTS), 'labour'];
  expect(Object.keys(USUAL_COSTS).sort()).toEqual(names.sort());
});

test('when a place is closed then its minutes are added, and not again once something was probed there', () => {
  expect(minutes({ at: ['F4.2'] })).toBeCloseTo(USUAL_COSTS.probe + placeOf('F4'));
  expect(minutes({ at: ['F4.2'] }, {}, ['volts F4.1 12.4'])).toBeCloseTo(USUAL_COSTS.probe);
});

test('when a circuit gives a cost of its own then that counts instead of the usual one', () => {
  const unplugged = { setUp: { unplugged: new Set(['X3']) } };
  const usual = minutes(unplugged);
  expect(minutes(unplugged, { unplug: 4 }) - usual).toBeCloseTo(4 - USUAL_COSTS.unplug);
  expect(minutes(unplugged, { probe: 2 }) - usual).toBeCloseTo(2 - USUAL_COSTS.probe);
});

test('when something is wiggled then that is paid beside the watching', () => {
  const still = minutes({ at: ['X3'] });
  expect(minutes({ at: ['X3'], wiggle: { do: 'wiggle', at: 'X3' } }, { wiggle: 3 })).toBeCloseTo(still + 3);
});

test('when a control takes a second person then the helper is paid where it is not at rest', () => {
  const helped = [...bench.circuit.controls.values()].find(({ helper }) => helper)!;
  const setUp = { controls: new Map(atRest(bench.circuit).controls).set(helped.id, helped.positions[1]!) };
  expect(minutes({ setUp }, { helper: 7 }) - minutes({ setUp }, { helper: 0 })).toBeCloseTo(7);
  expect(minutes({}, { helper: 7 }) - minutes({}, { helper: 0 })).toBeCloseTo(0);
});

test('when places far apart are open then walking back to one is paid, and staying is not', () => {
  const lines = ['volts F4.1 12.4', 'volts X3.1h 12.4'];
  expect(minutes({ at: ['F4.2'] }, { move: 2 }, lines)).toBeCloseTo(USUAL_COSTS.probe + 2);
  expect(minutes({ at: ['X3.2h'] }, { move: 2 }, lines)).toBeCloseTo(USUAL_COSTS.probe);
});

test('when a part has a price then it counts as the minutes that the labour rate makes of it', () => {
  expect(minutesOfMoney({ ...bench.circuit, costs: { labour: 90 } }, 18)).toBeCloseTo(12);
  expect(minutesOfMoney(bench.circuit, 18)).toBeCloseTo((18 / USUAL_COSTS.labour) * 60);
});
