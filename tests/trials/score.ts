/** A simulated session in figures: what the program made of it against what was really wrong. */
import type { Diagnosis, Suspect } from '../../src/diagnosis/diagnosis-types.js';
import { gather } from '../../src/diagnosis/evidence.js';
import { judge } from '../../src/diagnosis/verdict.js';
import type { Course } from '../../src/diagnosis/verdict.js';
import type { Fault } from '../../src/diagnosis/faults.js';
import { canBlow } from '../../src/diagnosis/faults.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { candidates } from '../../src/planning/candidates.js';
import { conditionsOf } from '../../src/planning/condition.js';
import { isFuseLike } from '../../src/session/fuse-places.js';
import { workedMilliseconds } from './clock.js';
import type { Set as Hypothesis } from './groups.js';
import type { Groups, Left } from './groups.js';
import type { Question } from './predictions.js';
import type { Kind, Moment, Session } from './session.js';

/** Suspects with less than this share of the weight do not count as left. */
const COUNTS = 0.01;

export interface Score {
  readonly circuit: string;
  readonly seed: number;
  readonly kind: Kind;
  readonly truth: string;
  readonly comesAndGoes: boolean;
  /** No reading ruled the true fault out. */
  readonly kept: boolean;
  /** It stands among the suspects, or one that the car cannot tell from it. */
  readonly listed: boolean;
  readonly inGroup: boolean;
  /** The same, or left with one repair only, and the right one. */
  readonly inRepair: boolean;
  /** The reading that would have told the truth from a suspect that is left. */
  readonly apart: string;
  readonly confirmed: 'right' | 'wrong' | 'no';
  /** Of every fault with a stated range: does it hold the truth, and high over low. */
  readonly ranges: readonly { readonly holds: boolean; readonly width: number; readonly ohms: boolean }[];
  readonly suspectsFirst: number;
  readonly suspectsLast: number;
  readonly findings: number;
  readonly minutes: number;
  readonly repairs: number;
  readonly cured: boolean;
  /** After at most four repairs for each fault nothing is left to complain about. */
  readonly solved: boolean;
  readonly fits: boolean;
  /** An open explanation (wrong reading, drawing differs, no fault now) has more weight than any suspect. */
  readonly openLeads: boolean;
  /** The leading suspect is at the place that was altered. */
  readonly named: boolean;
  readonly misreads: number;
  /** Suggestions that were dangerous, with why. */
  readonly dangers: readonly string[];
  readonly baselineInGroup: boolean;
  readonly milliseconds: number;
  readonly spent: Session['spent'] & { readonly groups: number };
}

export async function score(bench: Workbench, groups: Groups, session: Session): Promise<Score> {
  const { complaint, stopped, final, kind } = session;
  const { hidden } = stopped;
  const truth: Hypothesis = {
    id: idOfAll(hidden.map(({ fault }) => fault)),
    faults: hidden.map(({ fault, now }) => ({ fault, severity: now })),
    blown: stopped.openFuses,
  };
  const started = workedMilliseconds();
  const questions = kind === 'outside' ? [] : questionsOf(bench, session);
  const left = counting(stopped.diagnosis.suspects);
  const same = left.find((suspect) => isSame(suspect, truth));
  const judged = kind === 'outside' ? NOWHERE : await groupOf(bench, groups, session, questions);
  let baselineInGroup = kind !== 'outside';
  for (const suspect of baselineInGroup ? counting(complaint.diagnosis.suspects) : []) {
    if ((await groups.apart(truth, withFuses(bench, suspect, complaint), questions, false)) === undefined)
      continue;
    baselineInGroup = false;
    break;
  }
  const grouped = workedMilliseconds() - started;
  const spent = { ...session.spent, groups: grouped };
  return {
    circuit: bench.circuit.id,
    seed: session.seed,
    kind,
    truth: session.truth,
    comesAndGoes: hidden.some((fault) => fault.comesAndGoes),
    kept: session.fell === undefined,
    listed: same !== undefined || judged.listed,
    inGroup: judged.inGroup,
    inRepair: judged.inRepair,
    apart: judged.apart,
    confirmed: confirmedAs(bench, session),
    ranges: rangesOf(same, session),
    suspectsFirst: counting(complaint.diagnosis.suspects).length,
    suspectsLast: left.length,
    findings: session.findings,
    minutes: session.minutes,
    repairs: session.repairs,
    cured: session.car.hidden.length === 0,
    solved: session.left.length === 0,
    fits: stopped.diagnosis.fits,
    openLeads: openLeads(stopped.diagnosis) || openLeads(final),
    named: isNamed(bench, session, stopped.diagnosis.suspects[0]),
    misreads: session.misreads,
    dangers: session.dangers,
    baselineInGroup,
    milliseconds: Object.values(spent).reduce((sum, part) => sum + part, 0),
    spent,
  };
}

interface Ended {
  readonly listed: boolean;
  readonly inGroup: boolean;
  readonly inRepair: boolean;
  readonly apart: string;
}

const NOWHERE: Ended = { listed: false, inGroup: false, inRepair: false, apart: '' };

/**
 * Did the session end in the group of the truth? A single fault: when the program first suggested nothing more. Two: each of them
 * at some stop before a repair, the other one being there or repaired by then.
 */
async function groupOf(
  bench: Workbench,
  groups: Groups,
  session: Session,
  questions: readonly Question[],
): Promise<Ended> {
  const all = session.stopped.hidden.map(({ fault }) => fault);
  const stops = all.length > 1 ? session.stops : [session.stopped];
  const reached: Ended[] = [];
  for (const target of all) {
    let best = NOWHERE;
    for (const moment of stops) {
      if (!moment.hidden.some(({ fault }) => fault === target)) continue;
      const ended = await groupAt(bench, groups, moment, target, questions);
      if (ended.inGroup || (ended.inRepair && !best.inRepair) || best === NOWHERE) best = ended;
      if (best.inGroup) break;
    }
    reached.push(best);
  }
  return {
    listed: reached.every(({ listed }) => listed),
    inGroup: reached.every(({ inGroup }) => inGroup),
    inRepair: reached.every(({ inRepair }) => inRepair),
    apart: reached.map(({ apart }) => apart).join(' '),
  };
}

async function groupAt(
  bench: Workbench,
  groups: Groups,
  moment: Moment,
  target: Fault,
  questions: readonly Question[],
): Promise<Ended> {
  const left = counting(moment.diagnosis.suspects);
  let apart = '';
  let inGroup = left.length > 0;
  let inRepair = inGroup;
  let listed = false;
  for (const suspect of left) {
    let told: Question | undefined;
    for (const { real, claimed } of claims(bench, moment, target, suspect)) {
      told = await groups.apart(real, claimed, questions, true);
      if (told === undefined) break;
    }
    if (told === undefined) {
      listed = true;
      continue;
    }
    inGroup = false;
    apart ||= `${suspect.hypothesis} is told apart by ${JSON.stringify(told.reading)}`;
    const mends = suspect.faults.some(({ repair }) => repair.how === target.repair.how);
    inRepair &&= mends;
    if (!mends) break;
  }
  return { listed, inGroup, inRepair, apart };
}

/**
 * What has to be alike for a suspect to be in the group of a fault: with the only fault there, the suspect; of two, what is one fault
 * with that one alone, and what is two with both, or one of it with that one.
 */
function claims(
  bench: Workbench,
  moment: Moment,
  target: Fault,
  suspect: Suspect,
): { readonly real: Hypothesis; readonly claimed: Left }[] {
  const faults = moment.hidden.map(({ fault, now }) => ({ fault, severity: now }));
  const whole = withFuses(bench, suspect, moment);
  const all = { id: idOfAll(faults.map(({ fault }) => fault)), faults, blown: moment.openFuses };
  if (faults.length === 1) return [{ real: all, claimed: whole }];
  // The other one may have blown the fuse.
  const real: Hypothesis = {
    id: target.id,
    faults: faults.filter(({ fault }) => fault === target),
    blown: canBlow(target) ? moment.openFuses : 0,
  };
  const members = suspect.faults.map((fault): Left => {
    const blows = canBlow(bench.faults.find(({ id }) => id === fault.id)!);
    // Its stated severity is meant beside the other fault, or for both.
    return {
      suspect: { ...suspect, hypothesis: fault.id, faults: [fault], severities: [undefined] },
      blown: blows ? [...new Set([real.blown, 0])] : [0],
    };
  });
  if (suspect.faults.length === 1) return members.map((claimed) => ({ real, claimed }));
  return [...members.map((claimed) => ({ real, claimed })), { real: all, claimed: whole }];
}

function idOfAll(faults: readonly Fault[]): string {
  return faults
    .map(({ id }) => id)
    .sort()
    .join(' + ');
}

/** Every test a person may do about this complaint. */
function questionsOf(bench: Workbench, { mechanic, complaint }: Session): Question[] {
  const session = mechanic.case;
  return [
    ...candidates(bench, complaint.diagnosis, conditionsOf(bench, session, complaint.diagnosis)),
  ].filter(
    ({ wiggle, setUp }) =>
      // A second fuse is not sacrificed for a reading: fitting one is a repair that is tried.
      wiggle === undefined && ![...setUp.fitted.keys()].some((part) => isFuseLike(bench.circuit, part)),
  );
}

/** With the fuses that it may have blown by that moment; beside what was repaired, those that are open. */
function withFuses(bench: Workbench, suspect: Suspect, moment: Moment): Left {
  if (suspect.besides !== undefined) return { suspect, blown: [...new Set([moment.openFuses, 0])] };
  const evidence = gather(bench, moment.case);
  const faults = suspect.faults.map(({ id }) => bench.faults.find((fault) => fault.id === id)!);
  const courses: readonly Course[] =
    suspect.course === 'either' ? ['steady', 'comes and goes'] : [suspect.course];
  const masks = courses.flatMap((course) => judge(bench, faults, evidence, course).blown);
  return { suspect, blown: masks.length === 0 ? [0] : [...new Set(masks)] };
}

function counting(suspects: readonly Suspect[]): Suspect[] {
  return suspects.filter(({ share }) => share >= COUNTS);
}

function isSame(suspect: Suspect, truth: Hypothesis): boolean {
  const ids = new Set(truth.faults.map(({ fault }) => fault.id));
  return suspect.faults.length === ids.size && suspect.faults.every(({ id }) => ids.has(id));
}

/** Would its repair mend the vehicle, or all that is meant by it? */
function isMended(suspect: Suspect, { stopped: { hidden } }: Session): boolean {
  const how = new Set(hidden.map(({ fault }) => fault.repair.how));
  return suspect.faults.every(({ repair }) => how.has(repair.how));
}

/** What is confirmed at one time was cured by one and the same repair: one of them it must be. */
function confirmedAs(bench: Workbench, session: Session): Score['confirmed'] {
  const moments = [session.stopped.diagnosis, session.final]
    .map(({ suspects }) => suspects.filter((one) => one.confirmed))
    .filter((confirmed) => confirmed.length > 0);
  if (moments.length === 0) return 'no';
  const right = (suspect: Suspect) =>
    session.kind === 'outside' ? isNamed(bench, session, suspect) : isMended(suspect, session);
  return moments.every((confirmed) => confirmed.some(right)) ? 'right' : 'wrong';
}

/** A wire that is missing or ends elsewhere, another lamp: does the suspect sit there? A new wire has no place in the drawing. */
function isNamed(bench: Workbench, { alteration }: Session, suspect: Suspect | undefined): boolean {
  if (alteration === undefined || suspect === undefined) return false;
  const altered = [
    ...alteration.absent,
    ...alteration.faults.flatMap((fault) => (fault.kind === 'law' ? [fault.element] : [])),
  ].map((element) => bench.network.elements[element]!.part);
  return suspect.faults.every(({ part }) => altered.includes(part));
}

function rangesOf(suspect: Suspect | undefined, { stopped: { hidden } }: Session): Score['ranges'] {
  if (suspect === undefined) return [];
  return suspect.faults.flatMap(({ id }, i) => {
    const range = suspect.severities[i];
    const real = hidden.find(({ fault }) => fault.id === id);
    if (range === undefined || real === undefined || real.fault.scale.unit === 'none') return [];
    // Ohms that nobody can tell from an open circuit are one severity.
    const open = (ohms: number) => (range.unit === 'ohm' ? Math.min(ohms, 1e7) : ohms);
    const now = open(real.now);
    const holds = open(range.low) <= now * 1.000001 && open(range.high) >= now * 0.999999;
    const ohms = range.unit === 'ohm' && range.low > 0;
    return [{ holds, width: ohms ? open(range.high) / open(range.low) : 1, ohms }];
  });
}

function openLeads({ fits, open, groups }: Diagnosis): boolean {
  if (!fits) return true;
  const most = Math.max(0, ...open.filter(({ what }) => what !== 'no fault now').map(({ share }) => share));
  return most > (groups[0]?.share ?? 0);
}
