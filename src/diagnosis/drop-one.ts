/**
 * Before closing: every finding is left out in turn. If another repair would then lead, or only without it something fits, the
 * answer hangs on that one reading, and it is worth taking again.
 */
import type { Case } from '../session/case.js';
import type { Evidence } from './evidence-types.js';
import { gather } from './evidence.js';
import { withoutFindings } from './heard.js';
import type { Standing } from './rank.js';
import { rank } from './rank.js';
import { judge } from './verdict.js';
import type { Workbench } from './workbench.js';

export interface WeakLink {
  /** Number of the finding on which the answer hangs. */
  readonly finding: number;
  /** What would lead without it: a repair, or several that could not be told apart. */
  readonly without: string;
  readonly advice: string;
}

/** A repair leads when it has this share. */
const LEADS = 0.5;

/** Findings whose loss would change the answer, in the order of the session; none while nothing leads. */
export function weakLinks(bench: Workbench, session: Case): WeakLink[] {
  const evidence = gather(bench, session);
  const assumed = new Set(session.assumed);
  const answer = leader(bench, evidence, assumed);
  if (answer === undefined) return [];
  const hard = new Set(
    evidence.steps.flatMap((step) =>
      step.kind === 'observation' && step.observation.hard ? [step.observation.finding] : [],
    ),
  );
  return [...hard].flatMap((finding): WeakLink[] => {
    const other = leader(bench, withoutFindings(evidence, [finding]), assumed);
    if (other === answer) return [];
    const without = other ?? 'no single repair';
    return [
      {
        finding,
        without,
        advice: `Without #${finding} the answer would be: ${without}. Take that one again before you close.`,
      },
    ];
  });
}

/** The repair that has at least half of the weight; undefined when none has. */
function leader(bench: Workbench, evidence: Evidence, assumed: ReadonlySet<string>): string | undefined {
  const standing = bench.faults.flatMap((fault): Standing[] => {
    if (assumed.has(fault.part)) return [];
    const steady = judge(bench, [fault], evidence, 'steady');
    const loose = judge(bench, [fault], evidence, 'comes and goes');
    return steady.fall !== undefined && loose.fall !== undefined ? [] : [[steady, loose]];
  });
  const shares = new Map<string, number>();
  for (const { faults, share } of rank(standing)) {
    const { how } = faults[0]!.repair;
    shares.set(how, (shares.get(how) ?? 0) + share);
  }
  const best = [...shares].sort((a, b) => b[1] - a[1])[0];
  return best !== undefined && best[1] >= LEADS ? best[0] : undefined;
}
