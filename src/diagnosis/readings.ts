/** What a 10 MΩ voltmeter would read on the circuit as drawn, every part at its nominal value, with or without chosen faults. */
import { VOLTMETER } from '../network/meters.js';
import type { AppliedFault } from '../network/solver-types.js';
import type { SetUp } from '../session/setup.js';
import { attachedBy, node } from './attached.js';
import type { Workbench } from './workbench.js';

/**
 * Volts, red minus black, in every way the circuit can stand (relays between drop-out and pull-in, fuses that may hold or blow):
 * one figure as a rule. The battery is the one of the circuit file.
 */
export function nominalVolts(
  bench: Workbench,
  setUp: SetUp,
  red: string,
  black: string,
  faults: readonly AppliedFault[],
): number[] {
  const [a, b] = [node(bench, red), node(bench, black)];
  const added = [...attachedBy(bench, setUp), { a, b, law: VOLTMETER }];
  const outcomes = bench.solver(added).solve({ present: bench.presence(setUp), faults, blown: 0 });
  return outcomes.map(({ volts }) => volts[a]! - volts[b]!);
}
