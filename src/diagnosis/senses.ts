/** What a healthy vehicle would have read, finding by finding, and what each finding proved. */
import type { Case, Finding } from '../session/case.js';
import { healthyRange, isAmiss } from './amiss.js';
import type { FindingSense } from './diagnosis-types.js';
import type { Evidence } from './evidence-types.js';
import type { Observation } from './observe.js';
import type { Verdict } from './verdict.js';
import { showRange } from './wording.js';
import type { Workbench } from './workbench.js';

export interface Sense {
  readonly observation: Observation;
  readonly low: number;
  readonly high: number;
  /** A healthy vehicle would not have read so. */
  readonly abnormal: boolean;
}

export function judgeFindings(bench: Workbench, evidence: Evidence): Sense[] {
  return evidence.steps.flatMap((step) => {
    if (step.kind !== 'observation' || step.observation.retold !== undefined) return [];
    const { observation } = step;
    const healthy = healthyRange(bench, observation);
    return [{ observation, ...healthy, abnormal: isAmiss(healthy, observation) }];
  });
}

/** Numbers of the findings that a healthy vehicle would not show. */
export function abnormalFindings(senses: readonly Sense[]): ReadonlySet<number> {
  // A lamp that works as it should beside a dead one is not itself out of order.
  const bad = senses.filter((sense) => sense.abnormal && sense.observation.kind !== 'contrast');
  return new Set(bad.map((sense) => sense.observation.finding));
}

/** Per finding: what it proved, by the parts whose last suspicion it took away. */
export function describeFindings(
  bench: Workbench,
  session: Case,
  senses: readonly Sense[],
  verdicts: readonly Verdict[],
): FindingSense[] {
  const standing = new Map<string, number>();
  for (const { faults } of verdicts) standing.set(faults[0]!.part, (standing.get(faults[0]!.part) ?? 0) + 1);
  const fallenAt = new Map<number, Verdict[]>();
  for (const verdict of verdicts) {
    if (verdict.fall === undefined) continue;
    const { finding } = verdict.fall.observation;
    const list = fallenAt.get(finding);
    if (list === undefined) fallenAt.set(finding, [verdict]);
    else list.push(verdict);
  }
  const findings = session.timeline.flatMap((step) => (step.kind === 'finding' ? [step.finding] : []));
  const abnormal = abnormalFindings(senses);
  return findings.map((finding): FindingSense => {
    const own = senses.filter((sense) => sense.observation.finding === finding.number);
    const main = own[0];
    const gone: string[] = [];
    const weaker: string[] = [];
    for (const { faults } of fallenAt.get(finding.number) ?? []) {
      const { part } = faults[0]!;
      const left = standing.get(part)! - 1;
      standing.set(part, left);
      if (left === 0) gone.push(part);
      else if (!weaker.includes(part)) weaker.push(part);
    }
    const hard = main?.observation.hard ?? false;
    const fewer = weaker.filter((part) => !gone.includes(part));
    return {
      number: finding.number,
      provedWhat: provedWords(finding, gone, fewer, hard, main),
      abnormal: abnormal.has(finding.number),
      hard,
      prediction: main === undefined ? '' : showRange(bench, main.observation, main.low, main.high),
      reading: main === undefined ? '' : main.observation.shown,
    };
  });
}

function provedWords(
  finding: Finding,
  gone: readonly string[],
  weaker: readonly string[],
  hard: boolean,
  sense: Sense | undefined,
): string {
  if (sense === undefined) return 'How a part looks helps to rank; it rules nothing out.';
  if (finding.evidence === 'told') return 'Told, not seen: it ranks until it is reproduced.';
  if (!hard)
    return 'A meter that does not work would show the same: it only ranks until the meter is proved.';
  if (gone.length > 0) return `Not faulty on their own any more: ${gone.join(', ')}.`;
  if (weaker.length > 0) return `Fewer ways left in which ${weaker.join(', ')} can be at fault.`;
  return 'Agrees with everything that was still possible; it took nothing away.';
}
