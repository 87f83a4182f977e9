/** What a circuit file says of its known weak spots: the odds of their faults, times a factor. They rank, and rule nothing out. */
import type { Circuit } from '../../circuit/circuit.js';
import type { Fault, FaultKind } from '../fault.js';

/** What people did to a vehicle knows no weak spots. */
const DONE_BY_PEOPLE: ReadonlySet<FaultKind> = new Set<FaultKind>(['wrong', 'crossed', 'tapped']);

export function withWeakSpots(circuit: Circuit, faults: readonly Fault[]): Fault[] {
  const times = new Map<string, number>();
  for (const { id, weakSpot } of [...circuit.parts.values(), ...circuit.wires])
    if (weakSpot !== undefined) times.set(id, weakSpot.times);
  return faults.map((fault) => {
    const factor = times.get(fault.part);
    return factor === undefined || DONE_BY_PEOPLE.has(fault.kind)
      ? fault
      : { ...fault, weight: fault.weight * factor };
  });
}
