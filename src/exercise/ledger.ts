/** Minutes and money of an attempt, event by event: the planner's own costs for tests and steps, the faults' own for repairs. */
import type { Workbench } from '../diagnosis/workbench.js';
import { minutesOf, partsOf } from '../planning/changes.js';
import { costsOf } from '../planning/costs-of.js';
import { isRepair } from '../session/actions.js';
import type { Event, Reading, Recorded } from '../session/events.js';
import { undoneNumbers } from '../session/observed-order.js';
import type { SetUp } from '../session/setup.js';
import { atRest } from '../session/setup.js';
import { standingAfterOne, whenSetUp } from '../session/standing.js';
import type { Hint } from './exercise.js';
import { repairOf } from './mends.js';

export interface Entry {
  readonly number: number;
  readonly minutes: number;
  readonly money: number;
}

/** Ten seconds to show that a meter works (design; common practice, no source). */
const PROOF_MINUTES = 0.2;
/** Readings that may be taken back at once without having cost anything: slips, not a way to look for nothing. */
const FREE_SLIPS = 3;

/** Numbers of events that were slips: taken back before anything else was read. They cost nothing and are not judged. */
export function slipsOf(recorded: readonly Recorded[]): ReadonlySet<number> {
  const slips = new Set<number>();
  let readings = 0;
  const undone = undoneNumbers(recorded);
  for (const [index, { number, event }] of recorded.entries()) {
    if (!undone.has(number)) continue;
    const undo = recorded.findIndex(
      (other) => other.event.type === 'undone' && other.event.number === number,
    );
    const between = recorded.slice(index + 1, undo).some((other) => isReading(other.event));
    if (between || undo < 0) continue;
    if (isReading(event) && ++readings > FREE_SLIPS) continue;
    slips.add(number);
  }
  return slips;
}

function isReading(event: Event): boolean {
  return event.type === 'found' && event.evidence !== 'told';
}

/**
 * One entry for each event, in order.
 * @param hidden ids of the faults of this vehicle, so that a right repair costs its own minutes
 */
export function ledgerOf(
  bench: Workbench,
  recorded: readonly Recorded[],
  hints: readonly Hint[],
  hidden: ReadonlySet<string>,
): readonly Entry[] {
  const { circuit } = bench;
  const slips = slipsOf(recorded);
  const undone = undoneNumbers(recorded);
  const opened = new Set<string>();
  let setUp = atRest(circuit);
  let helped = false;
  return recorded.map(({ number, event }) => {
    if (slips.has(number)) return { number, minutes: 0, money: 0 };
    const { minutes, money, places, asked } = ownCost(bench, event, setUp, hints, hidden);
    let all = minutes;
    for (const place of places)
      if (!opened.has(place)) {
        opened.add(place);
        all += circuit.places.get(place)?.minutes ?? 0;
      }
    if (asked !== undefined) {
      const held = [...circuit.controls.values()].some(
        ({ id, helper, positions }) => helper && asked.controls.get(id) !== positions[0],
      );
      if (held && !helped) all += costsOf(circuit).helper;
      helped = held;
    }
    if (!undone.has(number)) setUp = standingAfterOne(event, setUp);
    return { number, minutes: all, money };
  });
}

interface Own {
  readonly minutes: number;
  readonly money: number;
  readonly places: readonly string[];
  /** Set-up in which something was read. */
  readonly asked?: SetUp;
}

function ownCost(
  bench: Workbench,
  event: Event,
  setUp: SetUp,
  hints: readonly Hint[],
  hidden: ReadonlySet<string>,
): Own {
  const { circuit } = bench;
  const nothing = { minutes: 0, money: 0, places: [] };
  switch (event.type) {
    case 'found': {
      if (event.evidence === 'told') return nothing;
      const when = (event.when ?? []).filter(
        ([control, position]) => setUp.controls.get(control) !== position,
      );
      const minutes = costsOf(circuit)[costOf(event.reading)] + when.length * costsOf(circuit).operate;
      return {
        minutes,
        money: 0,
        places: placesOf(bench, placesRead(bench, event.reading)),
        asked: whenSetUp(event.when ?? [], setUp),
      };
    }
    case 'attempted':
      return { ...nothing, minutes: costsOf(circuit)[costOf(event.reading)] };
    case 'did': {
      const { action } = event;
      const repair = isRepair(action) ? repairOf(bench, action, hidden) : undefined;
      const { minutes } = minutesOf(circuit, [action]);
      return {
        minutes: repair?.minutes ?? minutes,
        money: repair?.price ?? 0,
        places: placesOf(bench, partsOf(action)),
      };
    }
    case 'proved':
      return { ...nothing, minutes: PROOF_MINUTES };
    case 'hinted': {
      const hint = hints[event.number - 1];
      return { ...nothing, minutes: hint?.minutes ?? 0, money: hint?.money ?? 0 };
    }
    default:
      return nothing;
  }
}

/** The name of a bare test's cost (see circuit/costs.ts). */
export function costOf(reading: Reading) {
  switch (reading.kind) {
    case 'volts':
      if (reading.mode === 'loaded') return 'loaded';
      return reading.black === 'bat-' || reading.black === 'bat+' ? 'probe' : 'far-probe';
    case 'test lamp':
      return 'probe';
    case 'amps':
      return 'far-probe';
    case 'ohms':
    case 'continuity':
      return 'ohms';
    case 'clamp':
    case 'scan':
      return reading.kind;
    case 'load':
    case 'look':
    case 'fuse lamp':
      return 'look';
  }
}

/** Parts and wires at which a person must be for a reading; a load is seen from where one stands. */
export function placesRead(bench: Workbench, reading: Reading): readonly string[] {
  if ('red' in reading) return [reading.red, reading.black];
  if ('at' in reading) return [bench.circuit.wires.find(({ id }) => id === reading.at)?.from ?? reading.at];
  return 'part' in reading ? [reading.part] : [];
}

function placesOf({ circuit }: Workbench, names: readonly string[]): readonly string[] {
  return [...new Set(names.flatMap((name) => circuit.parts.get(name.split('.')[0]!)?.place ?? []))];
}

export function sumOf(entries: readonly Entry[]): { readonly minutes: number; readonly money: number } {
  return entries.reduce(
    (sum, { minutes, money }) => ({ minutes: sum.minutes + minutes, money: sum.money + money }),
    { minutes: 0, money: 0 },
  );
}
