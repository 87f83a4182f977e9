/** What steps cost on this circuit: its own figures where it gives any, else the usual ones; money as minutes. */
import type { Circuit } from '../circuit/circuit.js';
import type { Costs } from '../circuit/costs.js';
import { USUAL_COSTS } from './usual-costs.js';

const known = new WeakMap<Circuit, Costs>();

export function costsOf(circuit: Circuit): Costs {
  let costs = known.get(circuit);
  if (costs === undefined) known.set(circuit, (costs = { ...USUAL_COSTS, ...circuit.costs }));
  return costs;
}

/** Minutes of a repair, its parts counted as the work that they are worth; the money is the person's own. */
export function repairMinutes(
  circuit: Circuit,
  { minutes, price }: { readonly minutes: number; readonly price: number },
): number {
  return minutes + minutesOfMoney(circuit, price);
}

/** Minutes of work for which one could have this much money, by the labour rate. */
export function minutesOfMoney(circuit: Circuit, money: number): number {
  return (money / costsOf(circuit).labour) * 60;
}
