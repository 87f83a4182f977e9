/** Advice: a wire that burns before its fuse blows. */
import { calledOf } from '../../circuit/circuit.js';
import { pointer } from '../../circuit/diagnostic.js';
import type { Plan } from '../../circuit/downhill.js';
import type { Advice } from './advice.js';
import { fewNames, lowerEnd, stretchBelow } from './stretches.js';

/**
 * Amperes that a single PVC wire in free air carries all day at 30 °C: DIN VDE 0298-4, single-core cables (from memory).
 * Bundled wires carry less: the advice is for the plain cases.
 */
const CARRIES: readonly (readonly [mm2: number, amps: number])[] = [
  [0.35, 8],
  [0.5, 12],
  [0.75, 15],
  [1, 19],
  [1.5, 24],
  [2.5, 32],
  [4, 42],
  [6, 54],
  [10, 73],
  [16, 98],
  [25, 129],
  [35, 158],
  [50, 198],
];

/** Amperes for a size between two of the table; straight between its rows. */
export function carries(mm2: number): number {
  const above = CARRIES.findIndex(([size]) => size >= mm2);
  if (above === 0) return (CARRIES[0]![1] * mm2) / CARRIES[0]![0];
  const [low, high] = above < 0 ? CARRIES.slice(-2) : [CARRIES[above - 1]!, CARRIES[above]!];
  const [[fromSize, fromAmps], [toSize, toAmps]] = [low!, high!];
  return fromAmps + ((toAmps - fromAmps) * (mm2 - fromSize)) / (toSize - fromSize);
}

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
