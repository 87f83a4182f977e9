/** Points of the network, and what a set-up has attached to them. */
import { JUMPER, testLamp } from '../network/meters.js';
import type { Law } from '../network/network.js';
import type { AddedElement } from '../network/solver-types.js';
import { lampEnds } from '../session/fuse-places.js';
import type { SetUp } from '../session/setup.js';
import type { Workbench } from './workbench.js';

/** What a set-up has attached to the circuit, whatever is read: jumpers, and test lamps in place of fuses. */
export function attachedBy(bench: Workbench, setUp: SetUp): AddedElement[] {
  const between = ([from, to]: readonly [string, string], law: Law): AddedElement => ({
    a: node(bench, from),
    b: node(bench, to),
    law,
  });
  return [
    ...setUp.jumpers.map((ends) => between(ends, JUMPER)),
    ...[...setUp.lamps].map((fuse) =>
      between(lampEnds(bench.circuit, fuse), testLamp('filament', bench.circuit.nominalVolts)),
    ),
  ];
}

export function node(bench: Workbench, point: string): number {
  const found = bench.network.points.get(point);
  if (found === undefined) throw new Error(`no point ${point} in circuit ${bench.circuit.id}`);
  return found;
}
