/** What each action does to the set-up, and which contacts it disturbs on the way. Both are pure. */
import { terminalsOf, type Circuit } from '../circuit/circuit.js';
import type { Action } from './events.js';
import type { SetUp } from './setup.js';

/** The set-up after the action. An action that changes nothing (cleaning, a repeated unplug) returns it as it was. */
export function edit(action: Action, setUp: SetUp): SetUp {
  switch (action.do) {
    case 'operate':
      return { ...setUp, controls: new Map(setUp.controls).set(action.control, action.position) };
    case 'engine':
      return { ...setUp, engine: action.state };
    case 'unplug':
      return { ...setUp, unplugged: new Set(setUp.unplugged).add(action.connector) };
    case 'plug':
      return { ...setUp, unplugged: without(setUp.unplugged, action.connector) };
    case 'take out':
      return { ...setUp, out: new Set(setUp.out).add(action.part) };
    case 'refit':
    case 'fit new':
      return { ...setUp, out: without(setUp.out, action.part) };
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
      return setUp;
  }
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
      return new Set();
    case 'unplug':
    case 'plug':
      return new Set([action.connector]);
    case 'take out':
    case 'refit':
    case 'fit new':
      return placeTouched(action.part, circuit);
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

/** Why the action cannot be done in this set-up, and what to do instead; undefined when it can. */
export function refuse(
  action: Action,
  setUp: SetUp,
): { readonly message: string; readonly mend: string } | undefined {
  switch (action.do) {
    case 'unplug':
      if (setUp.unplugged.has(action.connector))
        return no(
          `${action.connector} is unplugged already`,
          `To connect it again: plug ${action.connector}`,
        );
      return undefined;
    case 'plug':
      if (!setUp.unplugged.has(action.connector))
        return no(`${action.connector} is plugged already`, `To part it: unplug ${action.connector}`);
      return undefined;
    case 'take out':
      if (setUp.out.has(action.part))
        return no(
          `${action.part} is out already`,
          `To put it back: in ${action.part}. A new one: new ${action.part}`,
        );
      return undefined;
    case 'refit':
      if (!setUp.out.has(action.part))
        return no(
          `${action.part} is not out, so it cannot be refitted`,
          `To take it out: out ${action.part}`,
        );
      return undefined;
    case 'jumper':
      if (hasJumper(setUp, action.between))
        return no(
          `There is a jumper between ${action.between.join(' and ')} already`,
          `To take it off: unjumper ${action.between.join(' ')}`,
        );
      return undefined;
    case 'remove jumper':
      if (!hasJumper(setUp, action.between))
        return no(
          `There is no jumper between ${action.between.join(' and ')}`,
          setUp.jumpers.length === 0
            ? 'No jumper is fitted at all.'
            : `Fitted: ${setUp.jumpers.map((ends) => ends.join(' to ')).join('; ')}.`,
        );
      return undefined;
    default:
      return undefined;
  }
}

/** A part with its terminals, a wire with the two contacts it ends in (moving it moves them), or just the point. */
function placeTouched(at: string, circuit: Circuit): ReadonlySet<string> {
  const part = circuit.parts.get(at);
  if (part) return new Set([at, ...terminalsOf(part).map((terminal) => `${at}.${terminal}`)]);
  const wire = circuit.wires.find((candidate) => candidate.id === at);
  return wire ? new Set([at, wire.from, wire.to]) : new Set([at]);
}

function hasJumper(setUp: SetUp, ends: readonly [string, string]): boolean {
  return setUp.jumpers.some((jumper) => sameEnds(jumper, ends));
}

function sameEnds(a: readonly [string, string], b: readonly [string, string]): boolean {
  return (a[0] === b[0] && a[1] === b[1]) || (a[0] === b[1] && a[1] === b[0]);
}

function without(set: ReadonlySet<string>, name: string): ReadonlySet<string> {
  return new Set([...set].filter((other) => other !== name));
}

function no(message: string, mend: string): { message: string; mend: string } {
  return { message, mend };
}
