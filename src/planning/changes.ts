/** The way from one set-up to another: what to do, in order, as actions and as typed lines, and how long it takes. */
import type { Circuit } from '../circuit/circuit.js';
import type { StepCost } from '../circuit/costs.js';
import type { Action } from '../session/events.js';
import { costsOf } from './costs-of.js';
import { KNOWN_GOOD, type SetUp } from '../session/setup.js';

/** Actions that lead from one set-up to another: first what is put back, then controls, then what is taken apart. */
export function actionsBetween(from: SetUp, to: SetUp): readonly Action[] {
  const actions: Action[] = [];
  for (const between of from.jumpers)
    if (!has(to.jumpers, between)) actions.push({ do: 'remove jumper', between });
  for (const part of from.lamps) if (!to.lamps.has(part)) actions.push({ do: 'remove lamp', part });
  actions.push(...fitting(from, to));
  for (const part of from.out)
    if (!to.out.has(part) && !renewed(from, to, part)) actions.push({ do: 'refit', part });
  for (const connector of from.unplugged)
    if (!to.unplugged.has(connector)) actions.push({ do: 'plug', connector });
  for (const part of to.out)
    if (!from.out.has(part) && !to.lamps.has(part)) actions.push({ do: 'take out', part });
  for (const part of to.lamps) if (!from.lamps.has(part)) actions.push({ do: 'lamp in place', part });
  for (const connector of to.unplugged)
    if (!from.unplugged.has(connector)) actions.push({ do: 'unplug', connector });
  for (const between of to.jumpers) if (!has(from.jumpers, between)) actions.push({ do: 'jumper', between });
  if (from.engine !== to.engine) actions.push({ do: 'engine', state: to.engine });
  for (const [control, position] of to.controls)
    if (from.controls.get(control) !== position) actions.push({ do: 'operate', control, position });
  if (to.rested > 0 && (actions.length > 0 || from.rested < to.rested))
    actions.push({ do: 'wait', minutes: to.rested });
  return actions;
}

/** Items that change their position or give way to a known-good one; every other one goes home first. */
function fitting(from: SetUp, to: SetUp): Action[] {
  const leaving = differing(from, to);
  const coming = differing(to, from);
  const home = exchanges(leaving).map((action): Action =>
    action.do === 'fit known-good' ? { do: 'refit', part: action.part } : action,
  );
  return [...home, ...exchanges(coming)];
}

/** Positions whose item is not their own in the one set-up and another in the other. */
function differing(one: SetUp, other: SetUp): SetUp['fitted'] {
  return new Map([...one.fitted].filter(([part, item]) => other.fitted.get(part) !== item));
}

type Exchange = Extract<Action, { do: 'swap' } | { do: 'fit known-good' | 'take out' }>;

/** What brings these items where they are, from all at home. */
function exchanges(fitted: SetUp['fitted']): Exchange[] {
  const done = new Set<string>();
  return [...fitted].flatMap(([part, item]): Exchange[] => {
    if (item === KNOWN_GOOD) return [{ do: 'fit known-good', part }];
    if (done.has(part)) return [];
    done.add(item);
    return [{ do: 'swap', parts: [part, item] }];
  });
}

/** The part got its item back, or another one, by a fitting. */
function renewed(from: SetUp, to: SetUp, part: string): boolean {
  const [before, after] = [from.fitted.get(part), to.fitted.get(part)];
  return before !== after && (before === KNOWN_GOOD || after === KNOWN_GOOD);
}

function has(jumpers: SetUp['jumpers'], ends: readonly [string, string]): boolean {
  return jumpers.some(([a, b]) => (a === ends[0] && b === ends[1]) || (a === ends[1] && b === ends[0]));
}

/** The action as a person types it. */
export function lineOf(action: Action): string {
  switch (action.do) {
    case 'operate':
      return `${action.control} ${action.position}`;
    case 'engine':
      return `engine ${action.state}`;
    case 'unplug':
    case 'plug':
      return `${action.do} ${action.connector}`;
    case 'take out':
      return `out ${action.part}`;
    case 'refit':
      return `in ${action.part}`;
    case 'fit new':
      return `new ${action.part}`;
    case 'swap':
      return `swap ${action.parts.join(' ')}`;
    case 'fit known-good':
      return `knowngood ${action.part}`;
    case 'lamp in place':
      return `lamp ${action.part}`;
    case 'remove lamp':
      return `unlamp ${action.part}`;
    case 'wait':
      return `wait ${action.minutes} min`;
    case 'reset':
      return `reset ${action.part}`;
    case 'jumper':
      return `jumper ${action.between.join(' ')}`;
    case 'remove jumper':
      return `unjumper ${action.between.join(' ')}`;
    case 'clean':
    case 'tighten':
    case 'reseat':
    case 'wiggle':
      return `${action.do} ${action.at}`;
    case 'repair':
      return `repair ${action.at} ${action.how}`;
  }
}

/** Minutes of these actions, with the places that must be opened for them; opened ones cost nothing. */
export function minutesOf(
  circuit: Circuit,
  actions: readonly Action[],
): { readonly minutes: number; readonly places: ReadonlySet<string> } {
  const places = new Set<string>();
  const costs = costsOf(circuit);
  let minutes = 0;
  for (const action of actions) {
    minutes += action.do === 'wait' ? action.minutes : costs[costKey(action.do)];
    for (const name of partsOf(action)) {
      const place = circuit.parts.get(name.split('.')[0]!)?.place;
      if (place !== undefined) places.add(place);
    }
  }
  return { minutes, places };
}

/** Actions have two words where keys have a hyphen. */
function costKey(what: Exclude<Action['do'], 'wait'>): StepCost {
  return what.replaceAll(' ', '-') as StepCost;
}

/** Parts and points at which an action is done. */
export function partsOf(action: Action): readonly string[] {
  if ('connector' in action) return [action.connector];
  if ('part' in action) return [action.part];
  if ('parts' in action) return action.parts;
  if ('at' in action) return [action.at];
  return 'between' in action ? action.between : [];
}

/** Something is unplugged, taken out, exchanged, bridged or moved on the way. */
export function disturbs(actions: readonly Action[]): boolean {
  return actions.some(({ do: what }) => what !== 'operate' && what !== 'engine' && what !== 'wait');
}
