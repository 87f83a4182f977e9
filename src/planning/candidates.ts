/** The tests there are: the failed condition, or one change from it, at every point a person can reach. */
import type { Diagnosis } from '../diagnosis/diagnosis-types.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Candidate, Scope } from './candidate.js';
import { clamps } from './candidates/current.js';
import { wiggles } from './candidates/hands.js';
import { isolation } from './candidates/isolate.js';
import { exchanges, fuseLamps, itemsOut } from './candidates/items.js';
import { jumpers } from './candidates/jumpers.js';
import { glances, glanceSetUps } from './candidates/loads.js';
import { loadedModules, openings } from './candidates/openings.js';
import { scans } from './candidates/scans.js';
import { batteryVolts, voltages } from './candidates/volts.js';
import type { Condition } from './condition.js';
import { outOfReach, pointsAt } from './reach.js';

/** Share of shorts from which on no further fuse is put at risk. */
const SHORT_ABOUT = 0.05;

/**
 * Every test worth weighing now, without costs and with repetitions. Never one at a point that must not be probed, at an
 * airbag, in ohms on a line that may be live, or with a jumper that moves something.
 */
export function candidates(
  bench: Workbench,
  diagnosis: Diagnosis,
  conditions: readonly Condition[],
): Candidate[] {
  const scope = scopeOf(bench, conditions);
  return [
    ...plain(bench, scope),
    ...exchanges(scope, shortShare(bench, diagnosis) < SHORT_ABOUT),
    ...wiggles(scope, diagnosis, diagnosis.gone),
  ];
}

/** What depends on the drawing and the conditions alone is made once. */
function plain(bench: Workbench, scope: Scope): readonly Candidate[] {
  let known = made.get(bench);
  if (known === undefined) made.set(bench, (known = new Map()));
  const key = JSON.stringify(
    scope.conditions.map(({ setUp, failed }) => [[...setUp.controls], setUp.engine, setUp.rested, failed]),
  );
  let list = known.get(key);
  if (list === undefined) {
    if (known.size >= MOST_KEPT) known.delete(known.keys().next().value!);
    list = [
      ...glances(scope),
      ...voltages(scope),
      ...batteryVolts(scope, glanceSetUps(scope)),
      ...jumpers(scope),
      ...openings(scope),
      ...loadedModules(scope),
      ...clamps(scope),
      ...itemsOut(scope),
      ...fuseLamps(scope),
      ...scans(scope),
      ...isolation(scope),
    ];
    known.set(key, list);
  }
  return list;
}

const MOST_KEPT = 50;
const made = new WeakMap<Workbench, Map<string, readonly Candidate[]>>();

function scopeOf(bench: Workbench, conditions: readonly Condition[]): Scope {
  const parts = [...bench.circuit.parts.values()].filter(
    (part) => outOfReach(bench.circuit, part.id) === undefined,
  );
  const points = parts.flatMap((part) =>
    pointsAt(part)
      .filter((point) => bench.network.points.has(point) && outOfReach(bench.circuit, point) === undefined)
      .map((point) => ({ point, part })),
  );
  return { bench, conditions, parts, points };
}

function shortShare(bench: Workbench, { suspects }: Diagnosis): number {
  const shorts = new Set(bench.faults.filter(({ kind }) => kind === 'short').map(({ id }) => id));
  return suspects
    .filter(({ faults }) => faults.some(({ id }) => shorts.has(id)))
    .reduce((sum, { share }) => sum + share, 0);
}
