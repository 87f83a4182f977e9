/** Only what a part or wire has to do with: its way up to the feed and down to ground, and what switches it. */
import type { Circuit, PointId } from '../../circuit/circuit.js';
import type { Link } from '../../circuit/links.js';
import { across, goesDown, planOf, type Plan } from '../../circuit/downhill.js';

/** Links to draw for these parts and wires. */
export function focusOn(circuit: Circuit, names: ReadonlySet<string>): (link: Link) => boolean {
  const plan = planOf(circuit);
  const kept = new Set<number>();
  const waiting = plan.links.filter((link) => concerns(link, names));
  const done = new Set<number>();
  for (let link = waiting.pop(); link !== undefined; link = waiting.pop()) {
    if (done.has(link.index)) continue;
    done.add(link.index);
    const through = [link, ...follow(plan, link, 'up'), ...follow(plan, link, 'down')];
    for (const one of through) kept.add(one.index);
    waiting.push(...through.flatMap((one) => workedBy(plan, one)));
  }
  // The way back from the metal to the battery belongs to every stretch.
  for (const link of plan.links) if (isReturn(plan, link)) kept.add(link.index);
  return ({ index }) => kept.has(index);
}

function concerns({ owner, ends }: Link, names: ReadonlySet<string>): boolean {
  return names.has(owner) || ends.some((end) => names.has(end));
}

/** What makes a relay pull in, or a module act. */
function workedBy(plan: Plan, { control, kind, owner }: Link): readonly Link[] {
  if (control.startsWith('relay:'))
    return plan.links.filter((link) => link.kind === 'coil' && link.owner === control.slice(6));
  if (kind !== 'inside') return [];
  return plan.links.filter((link) => link.kind === 'inside' && link.owner === owner && !isOutput(plan, link));
}

function isOutput({ circuit }: Plan, { owner, ends }: Link): boolean {
  const part = circuit.parts.get(owner);
  return (
    part?.type === 'module' && part.outputs.some(({ terminal }) => ends.includes(`${owner}.${terminal}`))
  );
}

function follow(plan: Plan, link: Link, way: 'up' | 'down'): readonly Link[] {
  const found = new Map<number, Link>();
  const [a, b] = link.ends;
  const aIsUpper = goesDown(plan, link, a);
  const points: PointId[] = [(way === 'up') === aIsUpper ? a : b];
  const seen = new Set(points);
  for (const point of points) {
    if (way === 'down' && plan.grounded.has(point)) continue;
    for (const next of plan.at.get(point) ?? []) {
      const other = across(next, point);
      const fits =
        way === 'down'
          ? goesDown(plan, next, point)
          : goesDown(plan, next, other) && !goesDown(plan, next, point);
      if (!fits || next.index === link.index) continue;
      found.set(next.index, next);
      if (!seen.has(other)) {
        seen.add(other);
        points.push(other);
      }
    }
  }
  return [...found.values()];
}

/** From the battery's own studs to its minus. */
function isReturn(plan: Plan, { kind, ends }: Link): boolean {
  return kind === 'wire' && ends.includes(plan.minus) && ends.some((end) => plan.grounded.has(end));
}
