/** The road of the program's own planner through an exercise, on the same vehicle: what the student's is laid beside. */
import type { Diagnosis, Suspect } from '../diagnosis/diagnosis-types.js';
import type { Action, Event } from '../session/events.js';
import type { SetUp } from '../session/setup.js';
import { proveRepair } from '../diagnosis/proof-of-repair.js';
import { isZeroLike, modeOf } from '../session/proof.js';
import { isRepairDue } from './best-test.js';
import { actionsBetween } from '../planning/changes.js';
import { renewal, repairAction } from './repair-action.js';
import type { Run } from './run.js';

/** Tests after which the planner gives up, and repairs that did not cure. */
const MOST_TESTS = 40;
const MOST_REPAIRS = 40;

export interface Road {
  /** The complaint was cured and every condition repeated. */
  readonly cured: boolean;
  readonly tests: number;
  readonly minutes: number;
  readonly money: number;
  /** Repairs that were left, and bits to tell them apart, once the complaint had been repeated: how hard it begins. */
  readonly repairs: number;
  readonly bits: number;
}

/** Records the events in memory; a test run has no disk behind it. */
export async function doAll(run: Run, drafts: readonly Event[]): Promise<void> {
  for (const draft of drafts) {
    const first = run.recorded.length + 1;
    const mets = await run.meet([draft]);
    await run.accept(mets.map(({ event }, i) => ({ number: first + i, at: '', event })));
  }
}

/** A zero counts once the meter was proved. */
export async function read(run: Run, draft: Extract<Event, { type: 'found' }>): Promise<void> {
  await doAll(run, [draft]);
  const last = run.recorded.at(-1)!.event;
  if (last.type !== 'found') return;
  const mode = modeOf(last.reading);
  if (mode !== undefined && isZeroLike(last.reading) && !run.case.proofs.has(mode))
    await doAll(run, [{ type: 'proved', mode }]);
}

/** Every load complained of, looked at in its condition. True when all are good. */
export async function lookAgain(run: Run): Promise<boolean> {
  for (const { load, setUp, word } of run.complained)
    await read(run, { type: 'found', reading: { kind: 'load', load, value: word }, ...whenFor(run, setUp) });
  return run.complained.every((one) => {
    const last = run.case.timeline.findLast(
      (step) =>
        step.kind === 'finding' &&
        step.finding.evidence !== 'told' &&
        step.finding.reading.kind === 'load' &&
        step.finding.reading.load === one.load,
    );
    return (
      last?.kind === 'finding' &&
      last.finding.reading.kind === 'load' &&
      one.good.has(last.finding.reading.value)
    );
  });
}

/** Positions of a set-up that differ from the standing ones. */
function whenFor(run: Run, setUp: SetUp): Pick<Extract<Event, { type: 'found' }>, 'when'> {
  const { now } = run.case;
  const moved = [...setUp.controls].filter(([control, position]) => now.controls.get(control) !== position);
  const when = setUp.engine === now.engine ? moved : [...moved, ['engine', setUp.engine] as [string, string]];
  return when.length > 0 ? { when } : {};
}

/** Whatever was seen failing on the way is looked at again, each in its own condition, until the repair is proved. */
export async function repeatAll(run: Run): Promise<boolean> {
  await putBack(run);
  const abnormal = new Set(
    diagnosisOf(run).findings.flatMap(({ abnormal: bad, number }) => (bad ? [number] : [])),
  );
  const { conditions } = proveRepair(run.case.timeline, abnormal);
  for (const { load, finding, again } of conditions) {
    if (again === 'good') continue;
    await read(run, {
      type: 'found',
      reading: { kind: 'load', load, value: 'off' },
      ...whenFor(run, finding.setUp),
    });
  }
  return diagnosisOf(run).verified;
}

export function diagnosisOf(run: Run): Diagnosis {
  return run.insight.diagnosis(run.recorded);
}

/** What a careful person does to mend a suspect, then new fuses where a look finds them blown, and a reset of what has shut down. */
export async function mend(run: Run, faultIds: readonly string[]): Promise<void> {
  const { bench } = run;
  await putBack(run);
  for (const id of faultIds) {
    const fault = bench.faults.find((one) => one.id === id);
    if (fault !== undefined) await doAll(run, [{ type: 'did', action: repairAction(bench, fault) }]);
  }
  for (const part of run.vehicle.blown) {
    await doAll(run, [{ type: 'found', reading: { kind: 'look', at: part, value: 'good' } }]);
    await doAll(run, [{ type: 'did', action: renewal(bench, part) }]);
  }
}

export async function putBack(run: Run): Promise<void> {
  const { now } = run.case;
  const home = {
    ...now,
    unplugged: new Set<string>(),
    out: new Set<string>(),
    jumpers: [],
    fitted: new Map(),
    lamps: new Set<string>(),
  };
  for (const action of actionsBetween(now, home)) await doAll(run, [{ type: 'did', action }]);
}

/** What was mended, named once the complaint is gone. */
function conclusions(run: Run): readonly Event[] {
  const parts = new Set<string>();
  for (const [number, { event, mended }] of run.mets)
    for (const id of mended) {
      const fault = run.bench.faults.find((one) => one.id === id);
      if (event.type === 'did' && fault !== undefined && run.counts(number)) parts.add(fault.part);
    }
  return [...parts].map((at) => ({ type: 'concluded', at, words: 'mended, and the complaint is gone' }));
}

/**
 * Ids of those faults of the likeliest suspect whose repair, as something is done by hand, was not done yet. A wire is cleaned at its ends
 * or mended along its length: the one does not do for the other.
 * @param tried acts done already; grows
 */
function likeliestUntried(run: Run, tried: Set<string>): readonly string[] | undefined {
  for (const { suspects } of diagnosisOf(run).groups)
    for (const suspect of suspects) {
      const open = suspect.faults.filter(
        (fault) => !tried.has(JSON.stringify(actsFor(run, { faults: [fault] }))),
      );
      if (open.length === 0) continue;
      for (const fault of open) tried.add(JSON.stringify(actsFor(run, { faults: [fault] })));
      return open.map(({ id }) => id);
    }
  return undefined;
}

/** What is done by hand to mend a suspect. */
export function actsFor({ bench }: Run, { faults }: Pick<Suspect, 'faults'>): readonly Action[] {
  const ids = new Set(faults.map(({ id }) => id));
  return bench.faults.filter(({ id }) => ids.has(id)).map((fault) => repairAction(bench, fault));
}

/** Opens the session and goes the whole way. */
export async function planned(run: Run): Promise<Road> {
  await doAll(run, run.opening);
  await lookAgain(run);
  const { groups } = diagnosisOf(run);
  const bits = groups.reduce((sum, { share }) => (share > 0 ? sum - share * Math.log2(share) : sum), 0);
  const tried = new Set<string>();
  let tests = 0;
  let cured = false;
  for (let repairs = 0; repairs < MOST_REPAIRS && !cured; repairs++) {
    for (; tests < MOST_TESTS; tests++) {
      const diagnosis = diagnosisOf(run);
      const test = run.insight.best(run.recorded);
      if (test === undefined || isRepairDue(run.bench, run.case, diagnosis, test)) break;
      await doAll(
        run,
        test.actions.map((action): Event => ({ type: 'did', action })),
      );
      // A wiggle is watched by itself.
      if (test.actions.at(-1)?.do === 'wiggle' && run.recorded.at(-1)?.event.type === 'found') continue;
      const before = run.recorded.length;
      await read(run, { type: 'found', reading: test.reading });
      if (run.recorded[before]?.event.type === 'attempted')
        await doAll(run, [{ type: 'skipped', test: test.line, why: 'cannot tell' }]);
    }
    const next = likeliestUntried(run, tried);
    if (next === undefined) break;
    await mend(run, next);
    cured = await lookAgain(run);
    if (cured) await repeatAll(run);
    if (cured) await doAll(run, conclusions(run));
  }
  await doAll(run, [{ type: 'closed' }]);
  return {
    cured: cured && run.vehicle.hidden.length === 0,
    tests,
    ...run.spent,
    repairs: groups.length,
    bits,
  };
}
