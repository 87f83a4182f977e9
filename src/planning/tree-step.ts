/** One node of a fault-finding tree: the test to do there with its answers, each tried out, or why the tree ends. */
import { assess } from './assess.js';
import type { Diagnosis } from '../diagnosis/diagnosis-types.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Event, Reading, Recorded } from '../session/events.js';
import { foldCase } from '../session/fold.js';
import { answersOf, asOne, chanceOf, type Answer } from './answers.js';
import { suggest } from './next.js';
import { bitsOf } from './piles.js';
import type { Suggestion } from './suggestion.js';
import type { TreeLeaf } from './tree-types.js';
import { Scales } from './weigh.js';

/** A session as it would stand there. */
export interface Situation {
  readonly recorded: readonly Recorded[];
  readonly diagnosis: Diagnosis;
}

export interface TreeStep {
  readonly test: Suggestion;
  readonly answers: readonly {
    readonly when: string;
    readonly reading: Reading;
    /** The chances of a test add up to 1. */
    readonly chance: number;
    readonly then: Situation;
  }[];
}

/** Share of all faults below which no further test is planned: on paper it costs more than it tells. */
export const RARE = 0.01;
/** Share of what comes to a leaf that may be left beside its repair; where the leaf would be split for rare faults only, more. */
const NO_DOUBT = { usual: 0.05, rare: 0.2 };
/** Bits about the repair that a test must tell on paper. */
const LEAST_BITS = 0.05;
/** A test must tell this part of what was hoped for: severities that a meter cannot carry over to the load tell nothing. */
const KEPT = 0.3;
/** Two answers whose shares differ by no more lead on alike. */
const SAME = 0.03;
/** Tests tried out before a node ends. */
const MOST_TRIES = 9;

export function situationOf(bench: Workbench, recorded: readonly Recorded[]): Situation {
  return { recorded, diagnosis: assess(bench, foldCase(bench.circuit, recorded)) };
}

/**
 * The test to do next, or why there is none.
 * @param share of all faults that come here, 0 to 1
 */
export function stepFrom(bench: Workbench, at: Situation, share: number): TreeStep | TreeLeaf['end'] {
  return endOf(at, share) ?? bestStep(bench, at, share);
}

/** Why no test is planned here, so far as that shows without looking for one; undefined where one may be. */
export function endOf({ diagnosis }: Situation, share: number): TreeLeaf['end'] | undefined {
  const { groups, paired } = diagnosis;
  const [leader] = groups;
  if (leader === undefined || paired) return 'not in this drawing';
  const isRest = (rest: number): boolean =>
    rest < NO_DOUBT.usual || (rest < NO_DOUBT.rare && share * rest < RARE);
  if (isRest(1 - leader.share)) return 'repair';
  const part = partOf(leader.suspects);
  const others = groups.filter(({ suspects }) => partOf(suspects) !== part);
  if (isRest(others.reduce((sum, group) => sum + group.share, 0))) return 'one part';
  return share < RARE ? 'not followed' : undefined;
}

/** The part at which the faults of one repair are. */
export function partOf(suspects: Diagnosis['suspects']): string {
  return suspects[0]!.faults[0]!.part;
}

function bestStep(bench: Workbench, at: Situation, share: number): TreeStep | TreeLeaf['end'] {
  let separable = false;
  const refused: Event[] = [];
  while (refused.length < MOST_TRIES) {
    // Passed over at this node only.
    const session = foldCase(bench.circuit, recordedWith(at.recorded, refused));
    const tests = suggest(bench, session, at.diagnosis);
    separable ||= tests.some(({ separates }) => separates);
    if (tests.length === 0) break;
    const scales = new Scales(bench, session, at.diagnosis, { enough: 1, even: false, apart: 'repairs' });
    for (const test of tests) {
      const step = worthwhile(bench, at, test, scales, RARE / share);
      // On paper a test is worth its lines only where two of its answers are.
      if (step !== undefined && step.answers.filter(({ chance }) => share * chance >= RARE).length > 1)
        return step;
      refused.push({ type: 'skipped', test: test.line, why: 'cannot tell' });
    }
  }
  return separable ? 'not followed' : 'alike';
}

/** The test with its answers; undefined where they would not tell what the planner hopes for. */
function worthwhile(
  bench: Workbench,
  at: Situation,
  test: Suggestion,
  scales: Scales,
  rare: number,
): TreeStep | undefined {
  const { line, words, setUp, reading, actions } = test;
  if (actions.some((action) => action.do === 'wiggle')) return undefined;
  const members = scales.members({ line, words, setUp, reading, bare: 'probe', at: [] });
  const answers = answersOf(bench, reading, members, rare);
  const hoped = bitsOf(answers.map(({ pile }) => pile));
  if (hoped < LEAST_BITS) return undefined;
  const step = triedOut(bench, at, test, answers);
  const told = step.answers.reduce(
    (bits, { chance, then }) => bits - chance * uncertainty(then.diagnosis),
    uncertainty(at.diagnosis),
  );
  return told < Math.max(LEAST_BITS, KEPT * hoped) ? undefined : step;
}

/** Each answer put on record. Neighbours that leave the same are one, whatever the meter shows between them. */
function triedOut(
  bench: Workbench,
  { recorded }: Situation,
  test: Suggestion,
  answers: readonly Answer[],
): TreeStep {
  const actions = test.actions.map((action): Event => ({ type: 'did', action }));
  const tryOut = (answer: Answer): Situation =>
    situationOf(bench, recordedWith(recorded, [...actions, { type: 'found', reading: answer.reading }]));
  const tried: { answer: Answer; then: Situation }[] = [];
  for (const answer of answers) {
    const now = { answer, then: tryOut(answer) };
    const before = tried.at(-1);
    const both =
      before !== undefined && difference(before.then.diagnosis, now.then.diagnosis) < SAME
        ? asOne(bench, before.answer, answer)
        : undefined;
    if (both === undefined) tried.push(now);
    else tried.splice(-1, 1, { answer: both, then: tryOut(both) });
  }
  const left = tried.map(({ answer }) => answer);
  return {
    test,
    answers: tried.map(({ answer, then }) => ({
      when: answer.when,
      reading: answer.reading,
      chance: chanceOf(answer, left),
      then,
    })),
  };
}

/** Part of the shares of the repairs that lies elsewhere, 0 to 1. */
function difference(one: Diagnosis, other: Diagnosis): number {
  const shares = new Map(one.groups.map(({ repair, share }) => [repair.how, share]));
  let common = 0;
  for (const { repair, share } of other.groups) common += Math.min(share, shares.get(repair.how) ?? 0);
  return one.groups.length === 0 && other.groups.length === 0 ? 0 : 1 - common;
}

export function recordedWith(recorded: readonly Recorded[], events: readonly Event[]): readonly Recorded[] {
  const last = recorded.at(-1)?.number ?? 0;
  return [...recorded, ...events.map((event, i) => ({ number: last + 1 + i, at: '', event }))];
}

/** Bits that are missing about the repair. */
function uncertainty({ groups }: Diagnosis): number {
  return groups.reduce((sum, { share }) => (share > 0 ? sum - share * Math.log2(share) : sum), 0);
}
