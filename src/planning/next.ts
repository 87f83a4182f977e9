/**
 * What to do next: the test that leads to the right repair soonest, planned ahead, or a repair worth trying before any test. Among
 * near equals the test that disturbs nothing.
 */
import type { Diagnosis } from '../diagnosis/diagnosis-types.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Case } from '../session/case.js';
import { roadFrom } from './ahead.js';
import { hasFailed } from './condition.js';
import { costsOf, repairMinutes } from './costs-of.js';
import type { Suggestion } from './suggestion.js';
import { toSuggestion } from './to-suggestion.js';
import { complaintMeasured } from './measured-complaint.js';
import { proofOf } from './proof.js';
import type { PlannedStep } from './sequence/plan.js';
import type { Aim, Weighed } from './weigh.js';
import { DISTURBANCE, Scales } from './weigh.js';

const MOST_SUGGESTIONS = 3;

/** Suspects beyond this share of the weight do not steer the choice, as long as others do. */
export const LIKELY: Aim = { enough: 0.995, even: false, apart: 'repairs' };
/** What else to tell apart, in this order, each once nothing serves the one before. */
const FURTHER: readonly Aim[] = [
  { enough: 1, even: true, apart: 'repairs' },
  { enough: 1, even: true, apart: 'suspects' },
];

/** A repair to try and the failed condition to repeat: a try, not a proof. */
export interface Attempt {
  /** Number of its group in the diagnosis. */
  readonly group: number;
  /** How likely it is the right one, 0 to 1. */
  readonly chance: number;
  /** Minutes to do it and to repeat the failed condition, parts money counted as minutes. */
  readonly minutes: number;
  /** As in `Suggestion`. */
  readonly expectedMinutes?: number;
}

export interface Advice {
  readonly tests: readonly Suggestion[];
  /** Leads to the right repair sooner than any test does, or is the only one left; undefined where a test goes first. */
  readonly attempt: Attempt | undefined;
}

/** How far ahead is planned: `usual`: exact where small, else by roll-out; `roll-out` only; `not`: most gain per minute. To compare them. */
export type Ahead = 'usual' | 'roll-out' | 'not';

/** Share from which on what is there leaves what has gone to be looked for later. */
const LIKELIER = 0.5;

const NOTHING: Advice = { tests: [], attempt: undefined };

/**
 * What to do next. Tests, best first: to measure a complaint that only an eye has seen; those on the shortest road to the right
 * repair; when none tells repairs apart any more, the faults that one repair mends; then the one that would prove the suspect that
 * is left. None when nothing has been found wrong, or no test within reach serves. What has gone is not looked for while something
 * likelier is there.
 */
export function advise(
  bench: Workbench,
  session: Case,
  diagnosis: Diagnosis,
  ahead: Ahead = 'usual',
): Advice {
  const suspects = diagnosis.suspects.filter(({ away }) => !away);
  if (suspects.reduce((sum, { share }) => sum + share, 0) < LIKELIER)
    return adviseOn(bench, session, diagnosis, ahead);
  const there = diagnosis.groups.flatMap((group, number) => {
    const own = group.suspects.filter(({ away }) => !away);
    return own.length === 0 ? [] : [{ ...group, suspects: own, number }];
  });
  const { tests, attempt } = adviseOn(bench, session, { ...diagnosis, suspects, groups: there }, ahead);
  return { tests, attempt: attempt && { ...attempt, group: there[attempt.group]!.number } };
}

/** The same when every suspect is there, or none. */
function adviseOn(bench: Workbench, session: Case, diagnosis: Diagnosis, ahead: Ahead): Advice {
  const { groups, suspects } = diagnosis;
  if (suspects.length === 0 || !hasFailed(bench, session, diagnosis)) return NOTHING;
  const only = groups.length < 2 ? attemptOf(bench, diagnosis, 0) : undefined;
  if (suspects.some(({ confirmed }) => confirmed) && only !== undefined) return { tests: [], attempt: only };
  const planned = groups.length < 2 ? undefined : plannedAdvice(bench, session, diagnosis, ahead);
  const tests = planned?.tests ?? [];
  // With the complaint gone there is nothing to try a repair on.
  const attempt = diagnosis.gone ? undefined : planned?.attempt;
  if (tests.length > 0) return { tests, attempt };
  return { tests: furtherTests(bench, session, diagnosis), attempt: only ?? attempt };
}

/** The tests of `advise`. */
export function suggest(bench: Workbench, session: Case, diagnosis: Diagnosis): readonly Suggestion[] {
  return advise(bench, session, diagnosis).tests;
}

function plannedAdvice(bench: Workbench, session: Case, diagnosis: Diagnosis, ahead: Ahead): Advice {
  const scales = new Scales(bench, session, diagnosis, LIKELY);
  const telling = scales.telling();
  const complaint = complaintMeasured(bench, session, diagnosis);
  if (complaint !== undefined) {
    const glances = telling.filter((test) => isGlance(test) && test.minutes < complaint.minutes);
    const tests = glances.length > 0 ? glances.sort((a, b) => b.value - a.value) : [complaint];
    return { tests: presented(bench, session, scales, tests), attempt: undefined };
  }
  if (ahead === 'not') {
    const tests = telling.sort((a, b) => b.value - a.value);
    const attempt = tests.length > 0 ? undefined : attemptOf(bench, diagnosis, 0);
    return { tests: presented(bench, session, scales, tests), attempt };
  }
  const road = roadFrom(bench, session, diagnosis, scales, telling, ahead === 'usual');
  const steps = [road, ...road.runnersUp];
  const tests = steps.flatMap(({ step, expectedMinutes }) =>
    'test' in step ? [{ ...road.tests[step.test]!, expectedMinutes }] : [],
  );
  const [first] = steps;
  const gentle = tests.findIndex(({ disturbs }) => !disturbs);
  // Measure before you disturb.
  if (gentle > 0 && isNear(tests[gentle]!.expectedMinutes, tests[0]!.expectedMinutes))
    tests.unshift(...tests.splice(gentle, 1));
  const inOrder = tests.length > 0 ? glanceFirst(tests, telling) : scales.best(MOST_SUGGESTIONS);
  return {
    tests: presented(bench, session, scales, inOrder),
    attempt: triedFirst(bench, diagnosis, first!, tests),
  };
}

/** The repair with which the shortest road begins, unless a test is about as short: a repair disturbs, and loses evidence. */
function triedFirst(
  bench: Workbench,
  diagnosis: Diagnosis,
  { step, expectedMinutes }: PlannedStep,
  tests: readonly { readonly expectedMinutes: number }[],
): Attempt | undefined {
  if (!('repair' in step)) return undefined;
  const tested = Math.min(...tests.map((test) => test.expectedMinutes));
  if (expectedMinutes * DISTURBANCE > tested) return undefined;
  return { ...attemptOf(bench, diagnosis, step.repair), expectedMinutes };
}

/** Before a tool is picked up, the look or listen that tells more a minute: it costs next to nothing, whatever comes after it. */
function glanceFirst<T extends Weighed>(
  tests: readonly T[],
  telling: readonly Weighed[],
): readonly Weighed[] {
  const [first] = tests;
  if (first === undefined || isGlance(first)) return tests;
  const [best] = telling.filter((test) => isGlance(test) && test.value >= first.value).sort(byValue);
  if (best === undefined) return tests;
  const planned = tests.find(({ candidate }) => candidate === best.candidate);
  return [planned ?? best, ...tests.filter((test) => test !== planned)].slice(0, MOST_SUGGESTIONS);
}

function byValue(a: Weighed, b: Weighed): number {
  return b.value - a.value;
}

/** Expected minutes as good as equal. */
function isNear(one: number, other: number): boolean {
  return Math.abs(one - other) <= Math.max(0.2, 0.02 * other);
}

/** When none tells the likely repairs apart. */
function furtherTests(bench: Workbench, session: Case, diagnosis: Diagnosis): Suggestion[] {
  const { groups, suspects } = diagnosis;
  for (const aim of FURTHER) {
    const left = aim.apart === 'repairs' ? groups.length : suspects.length;
    if (left < 2) continue;
    const scales = new Scales(bench, session, diagnosis, aim);
    const tests = presented(bench, session, scales, scales.best(MOST_SUGGESTIONS));
    if (tests.length > 0) return tests;
  }
  const proof = proofOf(bench, session, diagnosis);
  if (proof === undefined) return [];
  const means = `proves ${suspects[0]!.faults[0]!.label}`;
  const outcomes = [{ when: 'clearly more than 0.2 V', means, chance: 1 }];
  return [{ ...toSuggestion(bench, session, proof, []), outcomes }];
}

/** A look or a listen from where the person stands: nothing is opened or disturbed. */
function isGlance({ candidate, disturbs, opens }: Weighed): boolean {
  return candidate.reading.kind === 'load' && !disturbs && opens.length === 0;
}

/** Trying the repair of a group, whether or not it is the thing to do now. */
export function attemptOf({ circuit }: Workbench, { groups }: Diagnosis, group: number): Attempt {
  const { repair, share } = groups[group]!;
  return { group, chance: share, minutes: repairMinutes(circuit, repair) + costsOf(circuit).look };
}

/** The best in words, without those that call for a caution nobody should have to pass. */
function presented(
  bench: Workbench,
  session: Case,
  scales: Scales,
  chosen: readonly (Weighed & Pick<Suggestion, 'expectedMinutes'>)[],
): Suggestion[] {
  const shown: Suggestion[] = [];
  for (const weighed of chosen) {
    if (shown.length === MOST_SUGGESTIONS) break;
    const { expectedMinutes } = weighed;
    const suggestion = toSuggestion(bench, session, weighed, scales.members(weighed.candidate));
    if (suggestion.cautions.some(({ id, refused }) => refused || id === 'ohms-live')) continue;
    shown.push(expectedMinutes === undefined ? suggestion : { ...suggestion, expectedMinutes });
  }
  return shown;
}
