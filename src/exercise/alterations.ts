/** Vehicles that differ from their drawing: somebody fitted another lamp, added a wire, left one out, or joined elsewhere. */
import type { Workbench } from '../diagnosis/workbench.js';
import { filamentLaw } from '../network/compile.js';
import { BATTERY_NEGATIVE } from '../network/network.js';
import type { AddedElement, AppliedFault } from '../network/solver-types.js';
import type { Draw } from './random.js';
import { pick } from './random.js';

export interface Alteration {
  /** What was changed, for those who may know. */
  readonly words: string;
  readonly added: readonly AddedElement[];
  /** Elements of the drawing that this vehicle does not have. */
  readonly absent: readonly number[];
  readonly faults: readonly AppliedFault[];
}

const NONE = { added: [], absent: [], faults: [] } as const;
const WIRE = { kind: 'ohms', ohms: 0.03, low: 0.03, high: 0.03 } as const;

type Kind = 'an extra wire' | 'a missing wire' | 'a lamp of another kind' | 'a splice elsewhere';

export const ALTERATIONS: readonly Kind[] = [
  'an extra wire',
  'a missing wire',
  'a lamp of another kind',
  'a splice elsewhere',
];

/** A drawn alteration of this kind; undefined where the circuit has nothing to alter in that way. */
export function drawAlteration(bench: Workbench, draw: Draw, kind: Kind): Alteration | undefined {
  const { network, circuit } = bench;
  const points = [...network.points].filter(([, node]) => node !== BATTERY_NEGATIVE);
  const wires = network.elements.filter(({ owner }) => owner === 'wire');
  switch (kind) {
    case 'an extra wire': {
      const [[from, a], [to, b]] = [pick(draw, points), pick(draw, points)];
      if (a === b) return undefined;
      return { ...NONE, words: `extra wire from ${from} to ${to}`, added: [{ a, b, law: WIRE }] };
    }
    case 'a missing wire': {
      const wire = pick(draw, wires);
      return { ...NONE, words: `no wire ${wire.site}`, absent: [wire.index] };
    }
    case 'a lamp of another kind': {
      const lamps = network.elements.filter(
        ({ part, law }) => circuit.parts.get(part)?.type === 'lamp' && law.kind === 'curve',
      );
      if (lamps.length === 0) return undefined;
      const lamp = pick(draw, lamps);
      const { law } = lamp;
      if (law.kind !== 'curve') return undefined;
      const times = pick(draw, [0.15, 4]);
      const watts = law.amps * law.volts * times;
      // Half an LED: little current, and lit at a third of the volts.
      const fitted = filamentLaw(watts, law.volts * pick(draw, [0.5, 1]));
      const faults = [{ kind: 'law', element: lamp.index, law: fitted }] as const;
      return { ...NONE, words: `${watts.toFixed(0)} W lamp at ${lamp.site}`, faults };
    }
    case 'a splice elsewhere': {
      const wire = pick(draw, wires);
      const [to, b] = pick(draw, points);
      if (b === wire.a || b === wire.b) return undefined;
      return {
        ...NONE,
        words: `wire ${wire.site} ends at ${to}`,
        absent: [wire.index],
        added: [{ a: wire.a, b, law: { ...WIRE } }],
      };
    }
  }
}
