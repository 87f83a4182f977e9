/** The conditions in which something was found wrong: every suggested test starts from one of them. */
import type { Diagnosis } from '../diagnosis/diagnosis-types.js';
import { sameSetUp } from '../session/setup.js';
import { failures } from '../diagnosis/proof-of-cause.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Case, Finding } from '../session/case.js';
import type { SetUp } from '../session/setup.js';

export interface Condition {
  /** Everything plugged and fitted, as the vehicle is used. */
  readonly setUp: SetUp;
  /** Loads that failed in it: what to watch. */
  readonly failed: readonly string[];
}

/** More conditions than this add minutes, not knowledge. */
const MOST_CONDITIONS = 3;

export function findingsOf(session: Case): readonly Finding[] {
  return session.timeline.flatMap((step) => (step.kind === 'finding' ? [step.finding] : []));
}

/** Conditions with a failure, the last one first; else those of other readings out of order; else that of the first load seen. */
export function conditionsOf(
  bench: Workbench,
  session: Case,
  diagnosis: Pick<Diagnosis, 'findings'>,
): readonly Condition[] {
  const findings = findingsOf(session);
  const abnormal = new Set(diagnosis.findings.filter((sense) => sense.abnormal).map((sense) => sense.number));
  const chosen = [
    ...[...failures(bench, findings)].filter((finding) => !isUsual(diagnosis, finding)).reverse(),
    ...findings.filter(({ number }) => abnormal.has(number)),
  ];
  if (chosen.length === 0)
    chosen.push(...findings.filter(({ reading }) => reading.kind === 'load').slice(0, 1));
  const conditions: { setUp: SetUp; failed: string[] }[] = [];
  for (const { setUp, reading } of chosen) {
    const plain = asUsed(setUp);
    let condition = conditions.find((other) => sameSetUp(other.setUp, plain));
    if (condition === undefined) {
      if (conditions.length >= MOST_CONDITIONS) continue;
      conditions.push((condition = { setUp: plain, failed: [] }));
    }
    if (reading.kind === 'load' && !condition.failed.includes(reading.load))
      condition.failed.push(reading.load);
  }
  return conditions;
}

/** Was something found wrong? A load called dim counts, though a healthy vehicle with a low battery might show the same. */
export function hasFailed(bench: Workbench, session: Case, diagnosis: Diagnosis): boolean {
  return (
    diagnosis.abnormal || failures(bench, findingsOf(session)).some((finding) => !isUsual(diagnosis, finding))
  );
}

/** A lamp that is off where a healthy vehicle has it off, and never anything else, has not failed. */
function isUsual({ findings }: Pick<Diagnosis, 'findings'>, { number }: Finding): boolean {
  return findings.some((sense) => sense.number === number && sense.prediction === sense.reading);
}

function asUsed(setUp: SetUp): SetUp {
  return {
    ...setUp,
    unplugged: new Set(),
    out: new Set(),
    jumpers: [],
    fitted: new Map(),
    lamps: new Set(),
  };
}
