/** When two tests ask the same: same set-up, same kind of reading, the same nodes whatever their points are called. */
import type { Workbench } from '../diagnosis/workbench.js';
import type { Suspect } from '../diagnosis/diagnosis-types.js';
import { touches } from '../session/actions.js';
import type { Case } from '../session/case.js';
import type { Reading } from '../session/events.js';
import type { SetUp } from '../session/setup.js';
import type { Candidate } from './candidate.js';
import type { Forecaster } from './forecast.js';
import { forecasterOf } from './forecast.js';

export function questionOf(bench: Workbench, forecaster: Forecaster, setUp: SetUp, reading: Reading): string {
  return `${forecaster.key(setUp)}#${askedIn(bench, reading)}`;
}

function askedIn(bench: Workbench, reading: Reading): string {
  switch (reading.kind) {
    case 'volts':
    case 'ohms':
    case 'continuity':
    case 'test lamp': {
      const nodes = [reading.red, reading.black].map((point) => bench.network.points.get(point) ?? -1);
      const lamp = reading.kind === 'volts' && reading.mode === 'loaded' ? ' loaded' : '';
      return `${reading.kind}${lamp} ${nodes.sort((a, b) => a - b).join()}`;
    }
    case 'load':
      return `load ${reading.load}`;
    case 'fuse lamp':
      return `fuse lamp ${reading.part}`;
    case 'scan':
      return `scan ${reading.module} ${reading.input}`;
    case 'amps':
    case 'clamp':
    case 'look':
      return `${reading.kind} ${reading.at}`;
  }
}

/** A question is not put a third time; answered in whole volts, not a fourth. */
const OFTEN = 2;
const ROUNDED_OFTEN = 3;

/**
 * What was read in this session already, and which wiggles were done. What was read before most of the suspicion was last disturbed
 * counts no more: it may read otherwise now.
 * @param suspects those that are left
 */
export function askedAlready(
  bench: Workbench,
  forecaster: Forecaster,
  session: Case,
  suspects: readonly Suspect[] = [],
): ReadonlySet<string> {
  const asked = new Set<string>();
  const times = new Map<string, number>();
  const since = lastDisturbed(bench, session, suspects);
  session.timeline.forEach((step, i) => {
    if (step.kind === 'finding') {
      const { setUp, reading, evidence } = step.finding;
      if (evidence === 'told') return;
      const question = questionOf(bench, forecaster, setUp, reading);
      const count = (times.get(question) ?? 0) + (isRounded(reading) ? OFTEN / ROUNDED_OFTEN : 1);
      times.set(question, count);
      if ((i > since && !isRounded(reading)) || count >= OFTEN) asked.add(question);
    } else if (step.action.do === 'wiggle') asked.add(`wiggle ${step.action.at}`);
  });
  return asked;
}

/** Whole volts from a meter that shows hundredths: the same question gets a better answer when its digits are written down. */
export function isRounded(reading: Reading): boolean {
  return reading.kind === 'volts' && reading.value.step >= 1;
}

/** Was this read before in the same set-up, and only whole volts written down? */
export function wasRounded(bench: Workbench, session: Case, candidate: Candidate): boolean {
  const forecaster = forecasterOf(bench, session);
  const question = questionOfCandidate(bench, forecaster, candidate);
  return session.timeline.some(
    (step) =>
      step.kind === 'finding' &&
      isRounded(step.finding.reading) &&
      questionOf(bench, forecaster, step.finding.setUp, step.finding.reading) === question,
  );
}

/** Findings since most of the suspicion was last disturbed. */
export function undisturbed(bench: Workbench, session: Case, suspects: readonly Suspect[]): Case['timeline'] {
  return session.timeline.slice(lastDisturbed(bench, session, suspects) + 1);
}

/** Share of the weight that must have been disturbed before a question is put again. */
const MOSTLY = 0.5;

/** Working a control disturbs nothing that anyone would ask about again. */
function lastDisturbed({ circuit }: Workbench, { timeline }: Case, suspects: readonly Suspect[]): number {
  if (suspects.length === 0) return -1;
  return timeline.findLastIndex((step) => {
    if (step.kind !== 'action' || step.action.do === 'operate') return false;
    const touched = new Set([...touches(step.action, circuit)].map((name) => name.replace(/[hci]$/, '')));
    const share = suspects
      .filter(({ faults }) => faults.some(({ part, site }) => touched.has(part) || touched.has(site)))
      .reduce((sum, suspect) => sum + suspect.share, 0);
    return share >= MOSTLY;
  });
}

/** The name under which a candidate counts as asked. */
export function questionOfCandidate(bench: Workbench, forecaster: Forecaster, candidate: Candidate): string {
  const { wiggle, setUp, reading } = candidate;
  return wiggle === undefined ? questionOf(bench, forecaster, setUp, reading) : `wiggle ${wiggle.at}`;
}
