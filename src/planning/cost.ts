/** What a test costs in minutes from where the person stands now: places to open, things to part and put back, a helper. */
import type { Circuit } from '../circuit/circuit.js';
import type { Action } from '../session/events.js';
import type { Case } from '../session/case.js';
import type { SetUp } from '../session/setup.js';
import type { Candidate } from './candidate.js';
import { actionsBetween, disturbs, minutesOf, partsOf } from './changes.js';

/** One person cannot hold such a control and probe elsewhere; common practice, no source. */
const HELPER_MINUTES = 1;

export interface Cost {
  readonly minutes: number;
  /** Something is unplugged, taken out, exchanged or bridged for it. */
  readonly disturbs: boolean;
}

export class Costs {
  private readonly opened: ReadonlySet<string>;
  private readonly ways = new Map<
    SetUp,
    { minutes: number; places: ReadonlySet<string>; disturbs: boolean }
  >();

  constructor(
    private readonly circuit: Circuit,
    private readonly session: Case,
  ) {
    this.opened = openedPlaces(circuit, session);
  }

  of(candidate: Candidate): Cost {
    const way = this.way(candidate.setUp);
    const places = new Set(way.places);
    for (const name of candidate.at) {
      const place = this.circuit.parts.get(name.split('.')[0]!)?.place;
      if (place !== undefined) places.add(place);
    }
    let minutes = candidate.bare + way.minutes + (candidate.wiggle === undefined ? 0 : 0.5);
    for (const place of places)
      if (!this.opened.has(place)) minutes += this.circuit.places.get(place)?.minutes ?? 0;
    return { minutes, disturbs: way.disturbs || candidate.wiggle !== undefined };
  }

  private way(setUp: SetUp): { minutes: number; places: ReadonlySet<string>; disturbs: boolean } {
    let way = this.ways.get(setUp);
    if (way === undefined) {
      const actions = actionsBetween(this.session.now, setUp);
      const { minutes, places } = minutesOf(this.circuit, actions);
      const helped = minutes + (this.held(setUp) ? HELPER_MINUTES : 0);
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

/** Places where something was probed or done already. */
function openedPlaces(circuit: Circuit, session: Case): ReadonlySet<string> {
  const names = session.timeline.flatMap((step) => {
    if (step.kind === 'action') return partsOf(step.action);
    const { reading } = step.finding;
    if ('red' in reading) return [reading.red, reading.black];
    if ('at' in reading) return [circuit.wires.find(({ id }) => id === reading.at)?.from ?? reading.at];
    return 'part' in reading ? [reading.part] : [];
  });
  return new Set(names.flatMap((name) => circuit.parts.get(name.split('.')[0]!)?.place ?? []));
}

/** The actions of a test, in order. */
export function actionsOf(session: Case, { setUp, wiggle }: Candidate): readonly Action[] {
  const actions = actionsBetween(session.now, setUp);
  return wiggle === undefined ? actions : [...actions, wiggle];
}
