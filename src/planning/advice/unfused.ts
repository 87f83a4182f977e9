/** Advice: a thin wire on battery + with no fuse before it. */
import { pointer } from '../../circuit/diagnostic.js';
import type { Plan } from '../../circuit/downhill.js';
import type { Advice } from './advised.js';
import { stretchBelow } from './stretches.js';

/**
 * Battery, starter and charging cables of this size and above are left without a fuse, and so is the last piece up to the
 * fuse holder itself (common practice, no source).
 */
const CABLE_MM2 = 10;
const SHORT_METRES = 0.3;

export function adviseUnfused(plan: Plan): readonly Advice[] {
  const { circuit } = plan;
  const owners = new Set(stretchBelow(plan, plan.plus).links.map(({ owner }) => owner));
  return circuit.wires.flatMap(({ id, from, to, mm2, metres }, index): Advice[] => {
    if (!owners.has(id) || mm2 >= CABLE_MM2 || metres <= SHORT_METRES) return [];
    return [
      {
        code: 'unfused-wire',
        at: pointer('wires', index),
        message: `wire ${id} (${from} to ${to}, ${Number(mm2.toFixed(2))} mm2) hangs on battery + without a fuse: a short to the body would burn it`,
        mend: 'draw the fuse or fusible link that the vehicle has there, or correct where the wire comes from',
      },
    ];
  });
}
