/** Advice: a wire that burns before its fuse blows. */
import { calledOf } from '../../circuit/circuit.js';
import { pointer } from '../../circuit/diagnostic.js';
import type { Plan } from '../../circuit/downhill.js';
import { CARRIES, carries } from '../../circuit/wire-capacity.js';
import type { Advice } from './advised.js';
import { fewNames, lowerEnd, stretchBelow } from './stretches.js';

export function adviseThinForFuse(plan: Plan): readonly Advice[] {
  const { circuit, links } = plan;
  const wires = new Map(circuit.wires.map((wire) => [wire.id, wire]));
  return links.flatMap((fuse): Advice[] => {
    const part = circuit.parts.get(fuse.owner);
    if (part?.type !== 'fuse' && part?.type !== 'breaker' && part?.type !== 'fusible link') return [];
    const behind = stretchBelow(plan, lowerEnd(plan, fuse)).links.flatMap(
      ({ owner }) => wires.get(owner) ?? [],
    );
    const thin = behind.filter(({ mm2 }) => carries(mm2) < part.amps).sort((a, b) => a.mm2 - b.mm2);
    const [thinnest] = thin;
    if (thinnest === undefined) return [];
    const size = CARRIES.find(([, amps]) => amps >= part.amps)?.[0];
    return [
      {
        code: 'thin-for-fuse',
        at: pointer('parts', part.id, 'rating'),
        message: `${calledOf(part)} is ${part.amps} A, but ${fewNames(thin.map(({ id }) => id))} behind it ${thin.length === 1 ? 'is' : 'are'} as thin as ${Number(thinnest.mm2.toFixed(2))} mm2, good for about ${Math.floor(carries(thinnest.mm2))} A: the wire would burn before the fuse blows`,
        mend: `check rating and sizes${size === undefined ? '' : `; ${part.amps} A wants ${size} mm2 or more`}`,
      },
    ];
  });
}
