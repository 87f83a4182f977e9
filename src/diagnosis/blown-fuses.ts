/** A blown fuse is a symptom: what may have blown it, with the weight that each reason has among the suspects. */
import type { BlownFuse, FaultInfo } from './diagnosis-types.js';
import { infoOf } from './fault-info.js';
import type { Fault } from './faults.js';
import { canBlow } from './faults.js';
import { resetsOf } from '../network/fuse-rule.js';
import type { Standing } from './rank.js';
import { leadingVerdict } from './rank.js';
import type { Workbench } from './workbench.js';

type Why = BlownFuse['reasons'][number]['why'];

/** Share of the suspects that must have a fuse open before it is spoken of. */
const SPOKEN_OF = 0.2;

/** @param shares share of each standing hypothesis, in the same order */
export function blownFuses(
  bench: Workbench,
  standing: readonly Standing[],
  shares: readonly number[],
): BlownFuse[] {
  return bench.network.fuses.flatMap((element, bit) => {
    const fuse = bench.network.elements[element]!.part;
    const reasons = new Map<Why, { faults: FaultInfo[]; share: number }>();
    standing.forEach((both, i) => {
      const { faults, blown } = leadingVerdict(both);
      const own = faults.find((fault) => fault.part === fuse && fault.kind === 'open');
      const blower = faults.find(canBlow);
      const open = blower !== undefined && blown.some((mask) => ((mask >>> bit) & 1) === 1);
      if (own === undefined && !open) return;
      const [why, fault] = own === undefined ? [reasonOf(blower!), blower!] : ['old age' as const, own];
      const reason = reasons.get(why) ?? { faults: [], share: 0 };
      reasons.set(why, reason);
      reason.faults.push(infoOf(fault));
      reason.share += shares[i]!;
    });
    const total = [...reasons.values()].reduce((sum, reason) => sum + reason.share, 0);
    if (total < SPOKEN_OF) return [];
    return [
      {
        fuse,
        resets: resetsOf(bench.network, element),
        reasons: [...reasons].map(([why, reason]) => ({ why, ...reason })).sort((a, b) => b.share - a.share),
      },
    ];
  });
}

function reasonOf(fault: Fault): Why {
  if (fault.kind === 'short' || fault.kind === 'touching') return 'short';
  return fault.kind === 'seized' || fault.kind === 'dragging' ? 'stalled motor' : 'overload';
}
