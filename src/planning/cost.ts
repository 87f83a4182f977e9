/** What a test costs in minutes from where the person stands now: places to open, things to part and put back, a helper. */
import type { Circuit } from '../circuit/circuit.js';
import type { Action } from '../session/events.js';
import type { Case, Step } from '../session/case.js';
import type { SetUp } from '../session/setup.js';
import type { Candidate } from './candidate.js';
import { actionsBetween, disturbs, minutesOf, partsOf } from './changes.js';
import { costsOf } from './costs-of.js';

export interface Cost {
  readonly minutes: number;
  /** Something is unplugged, taken out, exchanged or bridged for it. */
  readonly disturbs: boolean;
  /** Places that must be opened for it. */
  readonly opens: readonly string[];
  /** How many of the minutes that takes. */
  readonly opening: number;
}

export class Costs {
  private readonly costs: ReturnType<typeof costsOf>;
  private readonly opened: ReadonlySet<string>;
  /** Where the person stands. */
  private readonly here: ReadonlySet<string>;
  private readonly ways = new Map<
    SetUp,
    { minutes: number; places: ReadonlySet<string>; disturbs: boolean }
  >();

  constructor(
    private readonly circuit: Circuit,
    private readonly session: Case,
  ) {
    this.costs = costsOf(circuit);
    const visited = visitedPlaces(circuit, session);
    this.opened = new Set(visited.flat());
    this.here = new Set(visited.at(-1));
  }

  of(candidate: Candidate): Cost {
    const way = this.way(candidate.setUp);
    const places = new Set(way.places);
    for (const name of candidate.at) {
      const place = this.circuit.parts.get(name.split('.')[0]!)?.place;
      if (place !== undefined) places.add(place);
    }
    const { wiggle } = candidate;
    let minutes =
      this.costs[candidate.bare] + way.minutes + (wiggle === undefined ? 0 : this.costs[wiggle.do]);
    const opens: string[] = [];
    let opening = 0;
    for (const place of places) {
      if (!this.opened.has(place)) {
        opening += this.circuit.places.get(place)?.minutes ?? 0;
        opens.push(place);
      } else if (!this.here.has(place)) minutes += this.costs.move;
    }
    const disturbing = way.disturbs || wiggle !== undefined;
    return { minutes: minutes + opening, disturbs: disturbing, opens, opening };
  }

  private way(setUp: SetUp): { minutes: number; places: ReadonlySet<string>; disturbs: boolean } {
    let way = this.ways.get(setUp);
    if (way === undefined) {
      const actions = actionsBetween(this.session.now, setUp);
      const { minutes, places } = minutesOf(this.circuit, actions);
      const helped = minutes + (this.held(setUp) ? this.costs.helper : 0);
      this.ways.set(setUp, (way = { minutes: helped, places, disturbs: disturbs(actions) }));
    }
    return way;
  }

  private held(setUp: SetUp): boolean {
    return [...this.circuit.controls.values()].some(
      (control) => control.helper && setUp.controls.get(control.id) !== control.positions[0],
    );
  }
}

/** Places where something was probed or done already, by step; steps that need none are left out. */
export function visitedPlaces(circuit: Circuit, session: Case): (readonly string[])[] {
  return session.timeline
    .map((step) =>
      namesIn(circuit, step).flatMap((name) => circuit.parts.get(name.split('.')[0]!)?.place ?? []),
    )
    .filter((places) => places.length > 0);
}

function namesIn(circuit: Circuit, step: Step): readonly string[] {
  if (step.kind === 'action') return partsOf(step.action);
  const { reading } = step.finding;
  if ('red' in reading) return [reading.red, reading.black];
  if ('at' in reading) return [circuit.wires.find(({ id }) => id === reading.at)?.from ?? reading.at];
  return 'part' in reading ? [reading.part] : [];
}

/** The actions of a test, in order. */
export function actionsOf(session: Case, { setUp, wiggle }: Candidate): readonly Action[] {
  const actions = actionsBetween(session.now, setUp);
  return wiggle === undefined ? actions : [...actions, wiggle];
}
