/** What each action does to the set-up, and which contacts it disturbs on the way. Both are pure. */
import { terminalsOf, type Circuit, type PartId } from '../circuit/circuit.js';
import type { Action } from './events.js';
import { KNOWN_GOOD, type SetUp } from './setup.js';

/**
 * The set-up after the action. Total: what `refuse` would not let through changes as little as it can. Whatever is done to
 * the vehicle but waiting may wake its electronics; only a control or engine that stands so already leaves it at rest.
 */
export function edit(action: Action, setUp: SetUp): SetUp {
  switch (action.do) {
    case 'wait':
      return { ...setUp, rested: setUp.rested + action.minutes };
    case 'operate':
      if (setUp.controls.get(action.control) === action.position) return setUp;
      return {
        ...awake(setUp),
        controls: new Map(setUp.controls).set(action.control, action.position),
      };
    case 'engine':
      return setUp.engine === action.state ? setUp : { ...awake(setUp), engine: action.state };
    default:
      return worked(action, awake(setUp));
  }
}

function worked(
  action: Exclude<Action, { do: 'wait' } | { do: 'operate' } | { do: 'engine' }>,
  setUp: SetUp,
): SetUp {
  switch (action.do) {
    case 'unplug':
      return { ...setUp, unplugged: new Set(setUp.unplugged).add(action.connector) };
    case 'plug':
      return { ...setUp, unplugged: without(setUp.unplugged, action.connector) };
    case 'take out':
      return { ...setUp, out: new Set(setUp.out).add(action.part) };
    case 'refit':
      return fittedAt(action.part, setUp, isKnownGood(action.part, setUp) ? action.part : undefined);
    case 'fit new':
      return fittedAt(action.part, setUp, action.part);
    case 'fit known-good':
      return fittedAt(action.part, setUp, KNOWN_GOOD);
    case 'swap':
      return swapped(action.parts, setUp);
    case 'lamp in place':
      return {
        ...setUp,
        out: new Set(setUp.out).add(action.part),
        lamps: new Set(setUp.lamps).add(action.part),
      };
    case 'remove lamp':
      return { ...setUp, lamps: without(setUp.lamps, action.part) };
    case 'jumper':
      return hasJumper(setUp, action.between)
        ? setUp
        : { ...setUp, jumpers: [...setUp.jumpers, action.between] };
    case 'remove jumper':
      return { ...setUp, jumpers: setUp.jumpers.filter((jumper) => !sameEnds(jumper, action.between)) };
    case 'clean':
    case 'tighten':
    case 'reseat':
    case 'wiggle':
    case 'repair':
    case 'reset':
      return setUp;
  }
}

/** Asleep no longer. */
export function awake(setUp: SetUp): SetUp {
  return setUp.rested === 0 ? setUp : { ...setUp, rested: 0 };
}

/** The position holds an item again: this one, or (undefined) the one that was taken out of it. No test lamp hangs there. */
function fittedAt(position: PartId, setUp: SetUp, item: PartId | typeof KNOWN_GOOD | undefined): SetUp {
  return {
    ...setUp,
    out: without(setUp.out, position),
    lamps: without(setUp.lamps, position),
    fitted: item === undefined ? setUp.fitted : withItem(setUp.fitted, position, item),
  };
}

function swapped([first, second]: readonly [PartId, PartId], setUp: SetUp): SetUp {
  const { fitted } = setUp;
  const [ofFirst, ofSecond] = [itemAt(first, setUp), itemAt(second, setUp)];
  return { ...setUp, fitted: withItem(withItem(fitted, first, ofSecond), second, ofFirst) };
}

/** Whose item sits, or sat before it was taken out, at a position. */
export function itemAt(position: PartId, { fitted }: SetUp): PartId | typeof KNOWN_GOOD {
  return fitted.get(position) ?? position;
}

export function isKnownGood(position: PartId, setUp: SetUp): boolean {
  return itemAt(position, setUp) === KNOWN_GOOD;
}

/** Own items are not listed, so that a swap and its opposite leave the set-up as it was. */
function withItem(
  fitted: SetUp['fitted'],
  position: PartId,
  item: PartId | typeof KNOWN_GOOD,
): SetUp['fitted'] {
  const next = new Map(fitted);
  if (item === position) next.delete(position);
  else next.set(position, item);
  return next;
}

/**
 * Names of what the action disturbs: a part (all its contacts), a point (the contact there) or a wire.
 * A fault that sits at a touched place may have another severity before and after.
 */
export function touches(action: Action, circuit: Circuit): ReadonlySet<string> {
  switch (action.do) {
    case 'operate':
      return new Set(
        [...circuit.parts.values()]
          .filter((part) => part.type === 'switch' && part.control === action.control)
          .map((part) => part.id),
      );
    case 'engine':
    case 'wait':
      return new Set();
    case 'unplug':
    case 'plug':
      return new Set([action.connector]);
    case 'take out':
    case 'refit':
    case 'fit new':
    case 'fit known-good':
    case 'lamp in place':
    case 'remove lamp':
      return placeTouched(action.part, circuit);
    case 'swap':
      return new Set(action.parts.flatMap((part) => [...placeTouched(part, circuit)]));
    case 'reset':
      return new Set([action.part]);
    case 'jumper':
    case 'remove jumper':
      return new Set(action.between);
    case 'clean':
    case 'tighten':
    case 'reseat':
    case 'wiggle':
    case 'repair':
      return placeTouched(action.at, circuit);
  }
}

/** A part with its terminals, a wire with the two contacts it ends in (moving it moves them), or just the point. */
function placeTouched(at: string, circuit: Circuit): ReadonlySet<string> {
  const part = circuit.parts.get(at);
  if (part) return new Set([at, ...terminalsOf(part).map((terminal) => `${at}.${terminal}`)]);
  const wire = circuit.wires.find((candidate) => candidate.id === at);
  return wire ? new Set([at, wire.from, wire.to]) : new Set([at]);
}

/** Is there a jumper between these two points, named in either order? */
export function hasJumper(setUp: SetUp, ends: readonly [string, string]): boolean {
  return setUp.jumpers.some((jumper) => sameEnds(jumper, ends));
}

function sameEnds(a: readonly [string, string], b: readonly [string, string]): boolean {
  return (a[0] === b[0] && a[1] === b[1]) || (a[0] === b[1] && a[1] === b[0]);
}

function without(set: ReadonlySet<string>, name: string): ReadonlySet<string> {
  return new Set([...set].filter((other) => other !== name));
}

/** Actions that mend something; unplugging, refitting, reseating and wiggling only touch it. */
export function isRepair(action: Action): boolean {
  return ['repair', 'fit new', 'clean', 'tighten'].includes(action.do);
}
