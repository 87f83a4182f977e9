/** Advice: a fuse that feeds one load only. When that load is dead, nothing else says whether fuse and feed are good. */
import { calledOf, loadsOf } from '../../circuit/circuit.js';
import { pointer } from '../../circuit/diagnostic.js';
import { across, goesDown, type Plan } from '../../circuit/downhill.js';
import type { Link } from '../../circuit/links.js';
import type { Advice } from './advised.js';
import { lowerEnd } from './stretches.js';

export function adviseWitness(plan: Plan): readonly Advice[] {
  const { circuit, links } = plan;
  return links.flatMap((fuse): Advice[] => {
    if (fuse.kind !== 'fuse') return [];
    const parts = [...new Set(loadsBelow(plan, fuse).map(({ owner }) => owner))].flatMap(
      (id) => circuit.parts.get(id) ?? [],
    );
    const [only] = parts;
    if (only === undefined || parts.length > 1 || loadsOf(only).length > 1 || only.type === 'module')
      return [];
    const part = circuit.parts.get(fuse.owner)!;
    return [
      {
        code: 'no-witness',
        at: pointer('parts', part.id),
        message: `${calledOf(part)} feeds only ${calledOf(only)}: when that is dead, no other load tells whether the fuse and its feed are good`,
        mend: 'draw what else hangs on this fuse; if nothing does, a look at the fuse is the first test',
      },
    ];
  });
}

/** Loads for which this fuse is on the way, other fuses passed. */
function loadsBelow(plan: Plan, fuse: Link): readonly Link[] {
  const found = new Map<number, Link>();
  const points = [lowerEnd(plan, fuse)];
  const seen = new Set(points);
  for (const point of points) {
    if (plan.grounded.has(point)) continue;
    for (const link of plan.at.get(point) ?? []) {
      if (!goesDown(plan, link, point) || link.index === fuse.index) continue;
      if (link.kind === 'load' || link.kind === 'coil' || link.kind === 'inside') found.set(link.index, link);
      const other = across(link, point);
      if (link.kind === 'load' || link.kind === 'coil' || seen.has(other)) continue;
      seen.add(other);
      points.push(other);
    }
  }
  return [...found.values()];
}
