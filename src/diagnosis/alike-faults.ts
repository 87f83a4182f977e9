/**
 * Faults that no finding of a session can tell apart, whatever else is wrong: added ohms in one unbranched run that no probe, plug
 * or hand has parted. One of them is judged for all.
 */
import type { Evidence } from './evidence-types.js';
import { nodesOf, runRepresentatives } from './effect.js';
import type { Fault } from './faults.js';
import { placedFaults } from './fitted.js';
import type { Question } from './question.js';
import type { Workbench } from './workbench.js';

/** Groups of faults that act alike in every question of the session, each in the order of the list given. */
export function alikeFaults(bench: Workbench, faults: readonly Fault[], evidence: Evidence): Fault[][] {
  const questions = evidence.steps.flatMap((step): Question[] =>
    step.kind === 'observation'
      ? [step.observation]
      : step.kind === 'change' && step.standing !== undefined
        ? [step.standing]
        : [],
  );
  const runs = questions.map((question) => runsOf(bench, question));
  const groups = new Map<string, Fault[]>();
  for (const fault of faults) {
    const applied = fault.apply(fault.scale.edges[0]!);
    const signs = evidence.steps.map((step) => {
      if (step.kind === 'change')
        return `${step.touched.some((touch) => touch(fault))}${step.replaced?.(fault) ?? ''}${step.mends?.(fault) ?? ''}`;
      return step.kind === 'look' ? step.favours([fault]) : '';
    });
    const places = questions.map(({ setUp }, i) => {
      const [placed] = placedFaults(bench.network, setUp.fitted, [applied]);
      return placed?.kind === 'series' ? runs[i]![placed.element] : fault.id;
    });
    const kind =
      applied.kind === 'series'
        ? `${fault.scale.edges.length} ${fault.scale.edges[0]} ${fault.contact}`
        : fault.id;
    const key = [kind, ...places, ...signs].join(' ');
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [fault]);
    else group.push(fault);
  }
  return [...groups.values()];
}

const remembered = new WeakMap<Workbench, Map<string, Int32Array>>();

function runsOf(bench: Workbench, { added, unpowered, present, quantity }: Question): Int32Array {
  let memo = remembered.get(bench);
  if (memo === undefined || memo.size > 500) remembered.set(bench, (memo = new Map()));
  const attached = [...added, ...(unpowered ?? [])].flatMap(({ a, b }) => [a, b]);
  const { a, b, minus } = quantity;
  const nodes = [...attached, a, b, ...(minus === undefined ? [] : [minus.a, minus.b])];
  const key = `${present.join('')} ${nodes.join()}`;
  let runs = memo.get(key);
  if (runs === undefined) memo.set(key, (runs = runRepresentatives(bench.network, present, nodes)));
  return runs;
}

/** Does a fault attach something inside the stretch that a group of alike faults covers? Then they are alike no more. */
export function parts(bench: Workbench, fault: Fault, group: readonly Fault[]): boolean {
  if (group.length === 1) return false;
  const nodes = nodesOf(bench.network, fault.apply(fault.scale.edges[0]!));
  if (nodes.length === 0) return false;
  const inside = new Set(
    group.flatMap((member) => {
      const index = bench.network.sites.get(member.site);
      if (index === undefined) return [];
      const { a, b } = bench.network.elements[index]!;
      return [a, b];
    }),
  );
  return nodes.some((node) => inside.has(node));
}
