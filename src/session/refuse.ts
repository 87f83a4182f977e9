/** What cannot be done as things stand, said with what to do instead. A refused action would make later set-ups a fiction. */
import type { Circuit } from '../circuit/circuit.js';
import { hasJumper, isKnownGood, itemAt } from './actions.js';
import type { Action } from './events.js';
import { hasLamp, isFuseLike, isResettable } from './fuse-places.js';
import { unlikeWhy } from './like-for-like.js';
import { atRest, KNOWN_GOOD, type SetUp } from './setup.js';

export interface Refusal {
  readonly message: string;
  readonly mend: string;
}

/** Why the action cannot be done in this set-up, and what to do instead; undefined when it can. */
export function refuse(action: Action, setUp: SetUp, circuit: Circuit): Refusal | undefined {
  return impossible(action, circuit) ?? untimely(action, setUp, circuit);
}

/** Why the action cannot be done on this circuit in any set-up. */
export function impossible(action: Action, circuit: Circuit): Refusal | undefined {
  switch (action.do) {
    case 'swap':
      return unlike(action.parts, circuit);
    case 'lamp in place':
      return isFuseLike(circuit, action.part)
        ? undefined
        : no(
            `${action.part} is no fuse: a test lamp in place of it would show nothing of use`,
            'For the lamp between two points: testlamp A B lit',
          );
    case 'reset':
      if (isResettable(circuit, action.part)) return undefined;
      return circuit.parts.get(action.part)?.type === 'breaker'
        ? no(`${action.part} closes again by itself`, 'Leave it alone for a while: wait 5')
        : no(`${action.part} has nothing to reset`, `A new item: new ${action.part}`);
    case 'wait':
      return action.minutes > 0 ? undefined : no('Waiting takes some minutes', 'For example: wait 30');
    default:
      return undefined;
  }
}

function untimely(action: Action, setUp: SetUp, circuit: Circuit): Refusal | undefined {
  switch (action.do) {
    case 'unplug':
      return setUp.unplugged.has(action.connector)
        ? no(`${action.connector} is unplugged already`, `To connect it again: plug ${action.connector}`)
        : undefined;
    case 'plug':
      return setUp.unplugged.has(action.connector)
        ? undefined
        : no(`${action.connector} is plugged already`, `To part it: unplug ${action.connector}`);
    case 'take out':
      return setUp.out.has(action.part)
        ? no(
            `${action.part} is out already`,
            `To put it back: in ${action.part}. A new one: new ${action.part}`,
          )
        : undefined;
    case 'refit':
      if (setUp.out.has(action.part)) return lampFirst(action.part, setUp);
      return isKnownGood(action.part, setUp)
        ? undefined
        : no(`${action.part} is not out, so it cannot be refitted`, `To take it out: out ${action.part}`);
    case 'fit new':
      return lampFirst(action.part, setUp) ?? ownFirst(action.part, setUp, `new ${action.part}`);
    case 'fit known-good':
      if (isKnownGood(action.part, setUp) && !setUp.out.has(action.part))
        return no(
          `A known-good item is fitted at ${action.part} already`,
          `To put its own back: in ${action.part}`,
        );
      return lampFirst(action.part, setUp) ?? ownFirst(action.part, setUp, `knowngood ${action.part}`);
    case 'swap':
      return notInPlace(action.parts, setUp);
    case 'lamp in place':
      return hasLamp(action.part, setUp)
        ? no(
            `A test lamp hangs in place of ${action.part} already`,
            `What it does: fuselamp ${action.part} lit. To take it off: unlamp ${action.part}`,
          )
        : undefined;
    case 'remove lamp':
      return hasLamp(action.part, setUp)
        ? undefined
        : no(`No test lamp hangs in place of ${action.part}`, `To hang one there: lamp ${action.part}`);
    case 'wait':
      return awakeStill(setUp, circuit);
    case 'jumper':
      return hasJumper(setUp, action.between)
        ? no(
            `There is a jumper between ${action.between.join(' and ')} already`,
            `To take it off: unjumper ${action.between.join(' ')}`,
          )
        : undefined;
    case 'remove jumper':
      return hasJumper(setUp, action.between)
        ? undefined
        : no(
            `There is no jumper between ${action.between.join(' and ')}`,
            setUp.jumpers.length === 0
              ? 'No jumper is fitted at all.'
              : `Fitted: ${setUp.jumpers.map((ends) => ends.join(' to ')).join('; ')}.`,
          );
    default:
      return undefined;
  }
}

function lampFirst(part: string, setUp: SetUp): Refusal | undefined {
  return hasLamp(part, setUp)
    ? no(`A test lamp hangs in place of ${part}`, `First: unlamp ${part}`)
    : undefined;
}

/** Where an item of elsewhere sits, it must go back first, or nobody could say any more which item is which. */
function ownFirst(part: string, setUp: SetUp, then: string): Refusal | undefined {
  const item = itemAt(part, setUp);
  if (item === part || item === KNOWN_GOOD) return undefined;
  return no(
    `${part} holds the item of ${item} since they were swapped`,
    `Put each back in its own place first: swap ${part} ${item}. Then: ${then}`,
  );
}

function unlike([first, second]: readonly [string, string], circuit: Circuit): Refusal | undefined {
  if (first === second) return no(`${first} cannot change places with itself`, 'Name two parts.');
  const why = unlikeWhy(circuit, first, second);
  return why === undefined
    ? undefined
    : no(
        `${first} and ${second} are not alike: ${why}`,
        `Only like for like may be swapped. To try another item: knowngood ${first}`,
      );
}

function notInPlace(parts: readonly [string, string], setUp: SetUp): Refusal | undefined {
  for (const part of parts) {
    const lamp = lampFirst(part, setUp);
    if (lamp) return lamp;
    if (setUp.out.has(part))
      return no(
        `${part} is out, so it is not clear which item would go where`,
        `Put it back first: in ${part}. A swap takes both out by itself`,
      );
    if (isKnownGood(part, setUp))
      return no(`${part} holds a known-good item`, `Put its own back first: in ${part}`);
  }
  return undefined;
}

function awakeStill(setUp: SetUp, circuit: Circuit): Refusal | undefined {
  const rest = atRest(circuit);
  const active = [...setUp.controls]
    .filter(([control, position]) => rest.controls.get(control) !== position)
    .map(([control, position]) => `${control} is ${position}`);
  if (setUp.engine === 'running') active.push('the engine is running');
  return active.length === 0
    ? undefined
    : no(
        `Electronics only go to sleep with everything off, but ${active.join(' and ')}`,
        'Type rest, then wait again',
      );
}

function no(message: string, mend: string): Refusal {
  return { message, mend };
}
