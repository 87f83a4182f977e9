/** The set-up as it stands between events: what was done adds up, and a finding with a `when` of its own leaves its trace. */
import type { Circuit } from '../circuit/circuit.js';
import { awake, edit } from './actions.js';
import type { Event, Recorded } from './events.js';
import { atRest, type SetUp } from './setup.js';

/** Name that stands for the engine in `when` pairs: `when engine running`. */
export const ENGINE = 'engine';

/** After these events, which count and stand in the order they were observed, from everything at rest. */
export function standingAfter(circuit: Circuit, order: readonly Recorded[]): SetUp {
  return order.reduce((setUp, { event }) => standingAfterOne(event, setUp), atRest(circuit));
}

export function standingAfterOne(event: Event, setUp: SetUp): SetUp {
  if (event.type === 'did') return edit(event.action, setUp);
  // The control was worked for this one finding and is back; but what slept has woken.
  if (event.type === 'found' && whenSetUp(event.when ?? [], setUp) !== setUp) return awake(setUp);
  return setUp;
}

/** The standing set-up with the control positions (or engine state) of one finding put in; itself when nothing differs. */
export function whenSetUp(when: readonly (readonly [string, string])[], standing: SetUp): SetUp {
  return when.reduce<SetUp>(
    (setUp, [control, position]) =>
      control === ENGINE && !setUp.controls.has(ENGINE)
        ? edit({ do: 'engine', state: position === 'running' ? 'running' : 'off' }, setUp)
        : edit({ do: 'operate', control, position }, setUp),
    standing,
  );
}
