/** The battery as a hypothesis may take it: one that drained it while it was measured is not held to what was read. */
import type { Fault } from './fault.js';
import type { Observation } from './observe.js';

const unheld = new WeakMap<Observation, Observation>();

/** The same reading with the battery that these faults leave open. */
export function asDrained(observation: Observation, faults: readonly Fault[]): Observation {
  const { drained } = observation;
  if (drained === undefined || !faults.some(drained.by)) return observation;
  let other = unheld.get(observation);
  if (other === undefined) unheld.set(observation, (other = { ...observation, source: drained.source }));
  return other;
}
