/** Advice: a wire that takes away more volts than the practice allows when its load runs. */
import { pointer } from '../../circuit/diagnostic.js';
import type { Plan } from '../../circuit/downhill.js';
import { SIZES } from '../../circuit/wire-capacity.js';
import type { Workbench } from '../../diagnosis/workbench.js';
import { atRest } from '../../session/setup.js';
import { setUpsFrom } from '../set-ups.js';
import type { Advice } from './advised.js';

/**
 * 0.2 V for each cable of a 12 V system (US Navy NAVEDTRA 14050, Construction Mechanic); others in proportion to their voltage,
 * as aircraft practice doubles it for 28 V (FAA AC 43.13-1B table 11-6, from memory).
 */
const MOST_VOLTS = 0.2;
/** Nobody mends a wire for a few millivolts. */
const HAIR = 1.05;
/** Combinations of controls solved at most. */
const MOST_SETUPS = 64;

export function adviseThin(bench: Workbench, { circuit }: Plan): readonly Advice[] {
  const { network } = bench;
  const solver = bench.solver([]);
  const limit = (MOST_VOLTS * circuit.nominalVolts) / 12;
  const { setUps } = setUpsFrom(circuit, atRest(circuit), MOST_SETUPS);
  const running = setUps.map((setUp) => ({ ...setUp, engine: 'running' as const }));
  const outcomes = [...setUps, ...(hasAlternator(circuit) ? running : [])].flatMap((setUp) => {
    const variant = { present: bench.presence(setUp), faults: [], blown: 0 };
    return solver.solve(variant).map((outcome) => ({ outcome, variant }));
  });
  return circuit.wires.flatMap(({ id, mm2 }, index): Advice[] => {
    const element = network.sites.get(id);
    if (element === undefined) return [];
    const { a, b } = network.elements[element]!;
    let worst = { volts: 0, amps: 0 };
    for (const { outcome, variant } of outcomes) {
      const volts = Math.abs(outcome.volts[a]! - outcome.volts[b]!);
      if (volts > worst.volts) worst = { volts, amps: Math.abs(solver.current(outcome, variant, element)) };
    }
    if (worst.volts <= limit * HAIR) return [];
    const size = SIZES.find((one) => one >= (mm2 * worst.volts) / limit);
    return [
      {
        code: 'thin-wire',
        at: pointer('wires', index, 'size'),
        message: `wire ${id} takes ${worst.volts.toFixed(2)} V away at ${worst.amps.toFixed(1)} A, all parts good; practice allows ${limit.toFixed(2)} V a wire`,
        mend: `check its size and length${size === undefined ? '' : `; ${size} mm2 would do`}`,
      },
    ];
  });
}

function hasAlternator({ parts }: Plan['circuit']): boolean {
  return [...parts.values()].some(({ type }) => type === 'alternator');
}
