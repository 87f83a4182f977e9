/**
 * Faults that a test disturbs on the way to its set-up. What was touched may be better or worse after it, so a reading taken there
 * tells it from nothing that reads alike with or without it.
 */
import type { Circuit } from '../../src/circuit/circuit.js';
import type { Fault } from '../../src/diagnosis/faults.js';
import { touches } from '../../src/session/actions.js';
import type { Action } from '../../src/session/events.js';
import type { SetUp } from '../../src/session/setup.js';

const known = new WeakMap<SetUp, ReadonlySet<string>>();

/** Whether the set-up, reached from the vehicle as it is used, disturbs the fault. Working a control is part of using it. */
export function isTouched(circuit: Circuit, setUp: SetUp, { part, site }: Fault): boolean {
  let names = known.get(setUp);
  if (names === undefined) {
    const actions: Action[] = [
      ...[...setUp.unplugged].map((connector) => ({ do: 'unplug' as const, connector })),
      ...[...setUp.out, ...setUp.fitted.keys()].map((at) => ({ do: 'take out' as const, part: at })),
      ...setUp.jumpers.map((between) => ({ do: 'jumper' as const, between })),
    ];
    const all = actions.flatMap((action) => [...touches(action, circuit)]);
    known.set(setUp, (names = new Set(all.flatMap((name) => [name, name.replace(/[hci]$/, '')]))));
  }
  return names.has(part) || names.has(site);
}
