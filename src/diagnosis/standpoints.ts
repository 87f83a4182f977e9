/** From where the effect of a fault is judged: how the network stands, and how what is read and what coils feel answer there. */
import type { Network } from '../network/network.js';
import type { Solver } from '../network/solver.js';
import type { AppliedFault, Outcome, Variant } from '../network/solver-types.js';
import type { Standpoint } from './effect.js';
import type { Quantity } from './observe.js';

/**
 * @param seen the network in each state in which it may stand, relays and fuses held
 * @param fed in each state that may be left of the set-up before: what coils feel there decides whether it holds
 */
export function standpointsOf(
  network: Network,
  solver: Solver,
  quantity: Quantity,
  seen: readonly Variant[],
  fed: readonly Variant[],
): Standpoint[] {
  const read = quantity.minus === undefined ? [quantity] : [quantity, quantity.minus];
  const conducting = throughDiodes(network);
  // What a coil feels may move contacts anywhere.
  const felt = (nominal: Outcome, held: Variant) =>
    network.coils.map((coil): Standpoint => {
      const { a, b } = network.elements[coil]!;
      return { volts: nominal.volts, response: solver.adjoint(nominal, held, a, b).response };
    });
  const shown = (nominal: Outcome, held: Variant) =>
    read.flatMap(({ a, b }): Standpoint[] => {
      const { signs, response } = solver.adjoint(nominal, held, a, b);
      const corners = [signs, signs.map((sign) => -sign)].map((corner) => {
        const { volts } = solver.solve({ ...held, corner, start: nominal })[0]!;
        return { volts, response };
      });
      const own = { volts: nominal.volts, response };
      if (conducting.length === 0) return [own, ...corners];
      const whole = { ...held, faults: [...conducting, ...held.faults] };
      const through = solver.adjoint(nominal, whole, a, b).response;
      return [own, { volts: nominal.volts, response: through }, ...corners];
    });
  const nominalOf = (held: Variant) => solver.solve(held)[0]!;
  return [
    ...seen.flatMap((held) => {
      const nominal = nominalOf(held);
      return [...felt(nominal, held), ...shown(nominal, held)];
    }),
    ...fed.flatMap((held) => felt(nominalOf(held), held)),
  ];
}

/** What blocks now may conduct once a fault is there: every diode as the ohms that it then has. */
function throughDiodes({ elements }: Network): readonly AppliedFault[] {
  return elements.flatMap(({ law, index }): AppliedFault[] =>
    law.kind === 'diode'
      ? [
          {
            kind: 'law',
            element: index,
            law: { kind: 'ohms', ohms: law.ohms, low: law.ohms, high: law.ohms },
          },
        ]
      : [],
  );
}
