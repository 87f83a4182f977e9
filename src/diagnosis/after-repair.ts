/**
 * What is left over after a repair that did not cure: the repaired fault was there, was mended, and another one hides no more.
 * Judged as pairs over the whole session, the repaired member healthy from its repair on.
 */
import { worthTrying } from './alone.js';
import { alikeFaults, parts } from './alike-faults.js';
import type { Evidence } from './evidence-types.js';
import type { Fault } from './faults.js';
import { judgeOn } from './hypotheses.js';
import type { Limits } from './pair-limits.js';
import { judged } from './pairs.js';
import type { Standing } from './rank.js';
import type { Verdict } from './verdict.js';
import type { Workbench } from './workbench.js';

export interface Repaired {
  readonly fault: Fault;
  /** Number of the step in which it was mended. */
  readonly step: number;
  /** Severities at which it explained everything until then. */
  readonly severities: readonly number[];
}

/** Repaired faults looked at, the likeliest first: each costs as much as judging every fault anew. */
const MOST_REPAIRED = 2;
/** Every fault is tried beside a repaired one; the whole box of severities only where they came furthest. */
const BOXES: Limits = { pairs: Infinity, boxes: 2 };

/** Faults that explained everything until they were repaired, when something is out of order still. */
export function repairedInVain(bench: Workbench, evidence: Evidence): readonly Repaired[] {
  const { steps } = evidence;
  const last = steps.findLastIndex((step) => step.kind === 'change' && step.mends !== undefined);
  const again = steps.slice(last + 1).some((step) => step.kind === 'observation' && step.again);
  if (last < 0 || !again) return [];
  const found: Repaired[] = [];
  steps.forEach((step, i) => {
    if (step.kind !== 'change' || step.mends === undefined) return;
    const until = { ...evidence, steps: steps.slice(0, i), prefixes: evidence.prefixes.slice(0, i + 1) };
    for (const fault of bench.faults) {
      if (!step.mends(fault) || found.some((one) => one.fault === fault)) continue;
      const { fall, severity } = judgeOn(bench, [fault], until, 'steady');
      if (fall === undefined) found.push({ fault, step: i, severities: spread(fault, severity[0]!) });
    }
  });
  return found.sort((a, b) => b.fault.weight - a.fault.weight).slice(0, MOST_REPAIRED);
}

/**
 * Single faults that explain what is still wrong beside a repaired one.
 * @param faults those that explain nothing alone
 */
export function leftOver(
  bench: Workbench,
  faults: readonly Fault[],
  evidence: Evidence,
  repaired: readonly Repaired[],
): Standing[] {
  const found = new Map<string, Standing>();
  for (const { fault, step, severities } of repaired) {
    const mended = withSuccess(evidence, fault, step);
    const others = faults.filter((other) => other !== fault && !found.has(other.id));
    const pairs = alikeFaults(bench, others, mended).flatMap((group) => {
      const parted = parts(bench, fault, group) ? group.map((other) => [other]) : [group];
      return parted.map((alike) => ({
        a: [fault],
        b: alike,
        severities: [severities, worthTrying(group[0]!)] as const,
      }));
    });
    for (const { pair, both } of judged(bench, pairs, mended, BOXES)) {
      if (both.every(({ fall }) => fall !== undefined)) continue;
      for (const other of pair.b)
        found.set(other.id, [named(both[0], fault, other), named(both[1], fault, other)]);
    }
  }
  return [...found.values()];
}

/** Both ends of what was left of its scale, and the middle. */
function spread({ scale }: Fault, { low, high }: { readonly low: number; readonly high: number }): number[] {
  if (scale.unit === 'none') return [scale.edges[0]!];
  const middle = low > 0 ? Math.sqrt(low * high) : (low + high) / 2;
  return [...new Set([high, middle, low])];
}

/** The session in which this repair has mended this fault for good. */
function withSuccess(evidence: Evidence, fault: Fault, at: number): Evidence {
  const steps = evidence.steps.map((step, i) =>
    i === at && step.kind === 'change'
      ? {
          ...step,
          replaced: (other: Fault) => other.id === fault.id || step.replaced?.(other) === true,
        }
      : step,
  );
  const prefixes = evidence.prefixes.map((prefix, i) => (i <= at ? prefix : `${prefix}, ${fault.id} mended`));
  return { ...evidence, steps, prefixes };
}

function named(verdict: Verdict, repaired: Fault, fault: Fault): Verdict {
  const { severity } = verdict;
  return {
    ...verdict,
    faults: [fault],
    besides: [repaired],
    severity: severity.length === 2 ? [severity[1]!] : severity,
  };
}
