/** What the owner of a simulated vehicle complains about: a load that does not do what it does on a healthy one. */
import { drivenSetUps, standingOf } from '../diagnosis/evidence.js';
import type { Workbench } from '../diagnosis/workbench.js';
import { sourceElement } from '../network/conditions.js';
import { seenVolts } from '../network/phases.js';
import type { AddedElement, AppliedFault } from '../network/solver-types.js';
import type { SetUp } from '../session/setup.js';

/** Shares of rated volts: a load that should work and has less than this part of its usual volts, and one that should not and has more. */
const WEAK = 0.8;
const UNASKED = 0.15;

export interface Complaint {
  readonly setUp: SetUp;
  readonly load: string;
  /** Which of the words for this kind of load would be no complaint. */
  readonly good: 'first' | 'last';
  /** Volts over rated volts that it has on a healthy vehicle, the fewest where there are several ways; of one that is pulsed the fewest the eye may take it for. */
  readonly usual: number;
  /** Volts over rated volts that it has on this vehicle, in one of the ways it may stand. */
  readonly has: number;
}

/** What a vehicle differs in from a healthy one as drawn. */
export interface Different {
  readonly faults: readonly AppliedFault[];
  readonly added: readonly AddedElement[];
  readonly absent: readonly number[];
  readonly blown: number;
}

const HEALTHY: Different = { faults: [], added: [], absent: [], blown: 0 };

/** Where the vehicle may misbehave, from nominal part values: places worth trying on the vehicle itself. */
export function complaints(bench: Workbench, vehicle: Different): Complaint[] {
  const found: Complaint[] = [];
  const healthy = healthyShares(bench);
  for (const { setUp, shares } of healthy) {
    for (const outcome of sharesIn(bench, setUp, vehicle)) {
      for (const [load, { seen: share }] of outcome) {
        const { low, high, usual } = shares.get(load)!;
        const weak = low > 0.5 && share < WEAK * low;
        const unasked = high < 0.05 && share > UNASKED;
        const known = found.some((other) => other.setUp === setUp && other.load === load);
        if ((weak || unasked) && !known)
          found.push({ setUp, load, good: weak ? 'first' : 'last', usual, has: share });
      }
    }
  }
  return found;
}

interface Healthy {
  readonly setUp: SetUp;
  /** Over every way in which it may stand. */
  readonly shares: ReadonlyMap<
    string,
    { readonly low: number; readonly high: number; readonly usual: number }
  >;
}

const known = new WeakMap<Workbench, readonly Healthy[]>();

function healthyShares(bench: Workbench): readonly Healthy[] {
  let list = known.get(bench);
  if (list === undefined) {
    list = drivenSetUps(bench).map((setUp) => {
      const ways = sharesIn(bench, setUp, HEALTHY);
      const shares = [...bench.network.loads.keys()].map((load) => {
        const each = ways.map((way) => way.get(load)!);
        const seen = each.map((share) => share.seen);
        const usual = Math.min(...each.map((share) => share.least));
        return [load, { low: Math.min(...seen), high: Math.max(...seen), usual }] as const;
      });
      return { setUp, shares: new Map(shares) };
    });
    known.set(bench, list);
  }
  return list;
}

interface Share {
  /** What the eye may make of it. */
  readonly seen: number;
  /** The least that the eye may make of it. */
  readonly least: number;
}

/** Volts over rated volts of every load, of one that flashes in its bright moments, in every way the circuit may stand. */
function sharesIn(
  bench: Workbench,
  setUp: SetUp,
  { faults, added: more, absent, blown }: Different,
): ReadonlyMap<string, Share>[] {
  const { added, present: drawn, source } = standingOf(bench, setUp);
  const present = drawn.slice();
  for (const element of absent) present[element] = 0;
  const element = sourceElement(bench.network);
  const own = faults.some((fault) => fault.kind === 'law' && fault.element === element);
  const list = own ? faults : [{ kind: 'law', element, law: source } as const, ...faults];
  return bench
    .solver([...added, ...more])
    .solve({ present, faults: list, blown })
    .map(
      (outcome) =>
        new Map(
          [...bench.network.loads].map(([id, { element, kind, ratedVolts }]) => {
            const { a, b } = bench.network.elements[element]!;
            const { low, high } = seenVolts(outcome, a, b, kind);
            const ends = [Math.abs(low), Math.abs(high)];
            return [id, { seen: Math.max(...ends) / ratedVolts, least: Math.min(...ends) / ratedVolts }];
          }),
        ),
    );
}
