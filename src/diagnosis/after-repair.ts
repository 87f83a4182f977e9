/**
 * What is left over after a repair that did not cure: the repaired fault was there, was mended, and another one hides no more.
 * Judged as pairs over the whole session, the repaired member healthy from its repair on.
 */
import { alikeFaults, parts } from './alike-faults.js';
import { alone as explainedBy } from './alone.js';
import type { Evidence, EvidenceStep } from './evidence-types.js';
import type { Fault } from './faults.js';
import { bothCourses, judgeOn } from './hypotheses.js';
import type { Observation } from './observe.js';
import type { Standing } from './rank.js';
import { explainsSince } from './since-repair.js';
import type { Verdict } from './verdict.js';
import type { Workbench } from './workbench.js';

interface Repaired {
  readonly fault: Fault;
  /** Number of the step in which it was mended. */
  readonly step: number;
}

/** Repaired faults looked at: each costs as much as judging every fault anew. */
const MOST = { alone: 12, beside: 6 };

/**
 * Faults that were repaired, after which something was out of order still.
 * @param abnormal findings that are out of order
 * @returns those that explained everything until then, the likeliest first; and those that did not, so that another one was there in
 * any case: those first that explained most of what was out of order, then the likeliest of each repair, of the latest repairs first
 */
function repairedBefore(
  bench: Workbench,
  evidence: Evidence,
  abnormal: readonly Observation[],
): { readonly alone: readonly Repaired[]; readonly beside: readonly Repaired[] } {
  const { steps } = evidence;
  const again = steps.findLastIndex((step) => step.kind === 'observation' && step.again);
  const alone: Repaired[] = [];
  const beside: (Repaired & { readonly explains: number; readonly turn: number })[] = [];
  steps.forEach((step, i) => {
    if (i > again || step.kind !== 'change' || step.mends === undefined) return;
    const until = { ...evidence, steps: steps.slice(0, i), prefixes: evidence.prefixes.slice(0, i + 1) };
    const amiss = abnormal.filter((one) =>
      until.steps.some((before) => before.kind === 'observation' && before.observation === one),
    );
    let turn = 0;
    for (const fault of [...bench.faults].sort((a, b) => b.weight - a.weight)) {
      if (!step.mends(fault) || [...alone, ...beside].some((one) => one.fault === fault)) continue;
      const { fall } = judgeOn(bench, [fault], until, 'steady');
      if (fall === undefined) alone.push({ fault, step: i });
      else {
        const { explains } = explainedBy(bench, fault, until, amiss);
        beside.push({ fault, step: i, explains: explains.length, turn: turn++ });
      }
    }
  });
  return {
    alone: alone.sort((a, b) => b.fault.weight - a.fault.weight).slice(0, MOST.alone),
    beside: beside
      .sort((a, b) => b.explains - a.explains || a.turn - b.turn || b.step - a.step)
      .slice(0, MOST.beside),
  };
}

/**
 * What is wrong beside a fault that was repaired.
 * @param faults those that explain nothing alone
 * @param abnormal findings that are out of order
 */
export function secondFaults(
  bench: Workbench,
  faults: readonly Fault[],
  evidence: Evidence,
  abnormal: readonly Observation[],
): readonly Standing[] {
  const { alone, beside } = repairedBefore(bench, evidence, abnormal);
  const found = new Map<string, Standing>();
  leftOver(bench, faults, evidence, alone, found);
  if ([...found.values()].every(isInVain)) leftOver(bench, faults, evidence, beside, found);
  return [...found.values()];
}

/** It fits in no other way than as a repair that failed. */
export function isInVain(both: Standing): boolean {
  return both.every(({ fall, inVain }) => fall !== undefined || inVain);
}

/**
 * Single faults that explain what is still wrong beside a repaired one. The repaired one is taken in one cell, at any severity: that is
 * quick, and lets nothing fall that the whole box would not. What it leaves too much is what readings before the repair might tell.
 * @param found by id; grows, and what was repaired in vain gives way to what was not
 */
function leftOver(
  bench: Workbench,
  faults: readonly Fault[],
  evidence: Evidence,
  repaired: readonly Repaired[],
  found: Map<string, Standing>,
): void {
  const isOpen = ({ id }: Fault) => {
    const known = found.get(id);
    return known === undefined || isInVain(known);
  };
  for (const { fault, step } of repaired) {
    const mended = withSuccess(evidence, fault, step);
    const others = faults.filter((other) => other !== fault && isOpen(other));
    const groups = alikeFaults(bench, others, mended).flatMap((group) =>
      parts(bench, fault, group) ? group.map((other) => [other]) : [group],
    );
    for (const alike of groups) {
      if (!explainsSince(bench, fault, alike[0]!, evidence, step)) continue;
      const both = bothCourses(bench, [anyhow(fault), alike[0]!], mended);
      if (both.every(({ fall }) => fall !== undefined)) continue;
      for (const other of alike) {
        const standing: Standing = [named(both[0], fault, other), named(both[1], fault, other)];
        if (!found.has(other.id) || !isInVain(standing)) found.set(other.id, standing);
      }
    }
  }
}

const inOneCell = new WeakMap<Fault, Fault>();

/** The fault with its whole scale in one cell; always the same object. Its id is its own: what is remembered of it is not of the scale. */
function anyhow(fault: Fault): Fault {
  const { edges, unit } = fault.scale;
  if (unit === 'none') return fault;
  let one = inOneCell.get(fault);
  if (one === undefined)
    inOneCell.set(
      fault,
      (one = {
        ...fault,
        id: `${fault.id} at any severity`,
        scale: { unit, edges: [edges[0]!, edges.at(-1)!] },
      }),
    );
  return one;
}

/** The session in which this repair has mended this fault for good: nothing that is touched later brings it back. */
function withSuccess(evidence: Evidence, fault: Fault, at: number): Evidence {
  const ids = [fault.id, anyhow(fault).id];
  const steps = evidence.steps.map((step, i): EvidenceStep => {
    if (i < at || step.kind !== 'change') return step;
    if (i > at)
      return {
        ...step,
        touched: step.touched.map((touch) => (other) => !ids.includes(other.id) && touch(other)),
      };
    return { ...step, replaced: (other) => ids.includes(other.id) || step.replaced?.(other) === true };
  });
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
