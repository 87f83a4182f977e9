/**
 * Masking: with an open circuit in the feed nothing flows behind it, so a short or a dead load there cannot show. It is named, so
 * that the repair of the first fault is not taken for the end.
 */
import type { Hidden } from './diagnosis-types.js';
import type { Evidence } from './evidence-types.js';
import { infoOf } from './fault-info.js';
import type { Fault } from './faults.js';
import { Predictor } from './predict.js';
import type { Observation } from './observe.js';
import type { Standing } from './rank.js';
import { leadingVerdict } from './rank.js';
import { isOpen } from './severity.js';
import type { Workbench } from './workbench.js';

const MOST_NAMED = 8;

function isShort({ kind }: Fault): boolean {
  return kind === 'short' || kind === 'touching' || kind === 'seized';
}

/** @param standing best first; only the leader is asked what it hides */
export function hiddenBehind(bench: Workbench, evidence: Evidence, standing: readonly Standing[]): Hidden[] {
  const leader = standing[0] && leadingVerdict(standing[0]);
  if (leader === undefined || leader.faults.length > 1) return [];
  const [front] = leader.faults;
  const range = leader.severity[0];
  const opens = front!.kind === 'open' || (front!.scale.unit === 'ohm' && isOpen(range?.high ?? 0));
  if (!opens) return [];
  const applied = front!.apply(front!.scale.edges.at(-1)!);
  const seen = evidence.steps.flatMap((step): Observation[] =>
    step.kind === 'observation' && step.observation.hard ? [step.observation] : [],
  );
  const alone = new Set(standing.map((both) => leadingVerdict(both).faults[0]!.id));
  const candidates = bench.faults.filter(
    (fault) =>
      fault.site !== front!.site &&
      !alone.has(fault.id) &&
      (isShort(fault) || fault.kind === 'open') &&
      // It would show in one of these set-ups, were the first fault not there; with it, in none.
      seen.some((observation) => new Predictor(bench, observation).shows([], fault)) &&
      seen.every((observation) => !new Predictor(bench, observation).shows([applied], fault)),
  );
  if (candidates.length === 0) return [];
  const ranked = [...candidates].sort(
    (a, b) => Number(isShort(b)) - Number(isShort(a)) || b.weight - a.weight,
  );
  const shorts = ranked.some(isShort);
  return [
    {
      behind: infoOf(front!),
      faults: ranked.slice(0, MOST_NAMED).map(infoOf),
      advice: shorts
        ? 'Nothing flows behind it, so a short there has not shown yet. Before power goes on again measure ohms to ground there, or hang a test lamp in place of the fuse.'
        : 'Nothing flows behind it, so a dead part there has not shown yet. Repeat every failed condition after the repair.',
    },
  ];
}
