/**
 * From a session to its diagnosis: every fault judged against every reading, what is left ranked and grouped by repair, and for
 * what fell the reading that felled it. A pure function of circuit and session.
 */
import type { Case } from '../session/case.js';
import { asks } from './asks.js';
import { isInVain, secondFaults } from './after-repair.js';
import { blownFuses } from './blown-fuses.js';
import type { Diagnosis, EdgeFits, Explained, Fallen, FaultInfo, Suspect } from './diagnosis-types.js';
import { asDrained } from './drained.js';
import type { Evidence } from './evidence-types.js';
import { gather } from './evidence.js';
import type { Fault } from './faults.js';
import { hypothesisId, infoOf } from './fault-info.js';
import { fitSeverity } from './fit-severity.js';
import { shownBeside } from './heard.js';
import { hiddenBehind } from './hidden.js';
import { bothCourses } from './hypotheses.js';
import type { Observation } from './observe.js';
import { openQuestions } from './open-questions.js';
import type { PairSearch } from './pairs.js';
import { judgePairs, judgeTriples } from './pairs.js';
import type { Limits } from './pair-limits.js';
import { EVERY_PAIR, pairsAtOnce, pairsFurther } from './pair-limits.js';
import { partStatuses } from './part-status.js';
import { Predictor } from './predict.js';
import { confirmedBy } from './proof-of-cause.js';
import { proveRepair } from './proof-of-repair.js';
import type { Standing } from './rank.js';
import { isFarFetched, leadingVerdict, rank, reweigh } from './rank.js';
import type { Sense } from './senses.js';
import { abnormalFindings, describeFindings, judgeFindings } from './senses.js';
import type { Verdict } from './verdict.js';
import { showRange } from './wording.js';
import type { Workbench } from './workbench.js';

/** How much work a diagnosis is given. */
export interface Depth {
  /** Judge every pair, also when single faults explain everything: only then can a part be called cleared. Takes seconds. */
  readonly allPairs?: boolean;
  /** Narrow the severities inside their cells and say what is hidden behind an open circuit. */
  readonly fit?: boolean;
  /** Weighs what fits only at an edge; left out: all that fits counts alike. */
  readonly edgeFits?: EdgeFits;
}

const MOST_TRIPLES = 200;
/** Suspects whose severity and reasons are worked out: those with this share of the weight, and at most so many. */
const NOTEWORTHY = 0.005;
const MOST_NOTEWORTHY = 24;

export function diagnose(bench: Workbench, session: Case, depth: Depth = {}): Diagnosis {
  const evidence = gather(bench, session);
  const senses = judgeFindings(bench, evidence);
  const abnormal = senses.filter((sense) => sense.abnormal);
  const singles = bench.faults.map((fault): Standing => bothCourses(bench, [fault], evidence));
  const assumed = new Set(session.assumed);
  const isAssumed = (both: Standing) => both[0].faults.some((fault) => assumed.has(fault.part));
  const stands = (both: Standing) => both.some((verdict) => verdict.fall === undefined);
  const standing = singles.filter((both) => stands(both) && !isAssumed(both));
  const others = singles
    .map(([{ faults }]) => faults[0]!)
    .filter((fault) => !assumed.has(fault.part) && !standing.some(([{ faults }]) => faults[0] === fault));
  const amiss = abnormal.map(({ observation }) => observation);
  const second = standing.every(isByChance) ? secondFaults(bench, others, evidence, amiss) : [];
  // Pairs of other faults only where no second one explains what the repair left.
  const more = [...standing, ...second].every(isInVain);
  const beside = !more && second.length === 0 && isFarFetched(standing);
  const search = searchPairs(bench, evidence, others, amiss, { more, beside }, depth);
  const explanations = [...standing, ...second, ...(more || beside ? (search?.standing ?? []) : [])];
  const triples =
    explanations.length === 0 && abnormal.length > 0 && depth.allPairs === true
      ? judgeTriples(bench, bench.faults, evidence, search?.near ?? [], MOST_TRIPLES)
      : [];
  const left = explanations.length === 0 ? triples : explanations;
  const proof = proveRepair(session.timeline, abnormalFindings(senses));
  const isGone = session.symptom === 'absent' || (evidence.wellAgain && session.said !== 'present');
  const verified = proof.state === 'verified';
  const byRoom = rank(left);
  // What proves a cause does not lean on how well the others fit.
  const confirmed = confirmedBy(bench, session, evidence, byRoom, verified);
  const byId = new Map(left.map((both) => [hypothesisId(both[0].faults), both]));
  const findings = describeFindings(
    bench,
    session,
    senses,
    singles.map(([steady, loose]) => (loose.fall === undefined ? loose : steady)),
  );
  const ranges = byRoom.map(({ hypothesis }) => leadingVerdict(byId.get(hypothesis)!).severity);
  const ranked =
    depth.edgeFits === undefined ? byRoom : reweigh(byRoom, depth.edgeFits(byRoom, ranges, findings));
  const suspects = ranked.map((suspect, i): Suspect => {
    const both = byId.get(suspect.hypothesis)!;
    const proved = { ...suspect, confirmed: confirmed.has(suspect.hypothesis) };
    if (i >= MOST_NOTEWORTHY || suspect.share < NOTEWORTHY) return proved;
    return noteworthy(bench, session, proved, both, abnormal, depth);
  });
  const fallen = singles.flatMap(([steady, loose]) =>
    steady.fall !== undefined && loose.fall !== undefined ? [fallenOf(bench, loose)] : [],
  );
  const inOrder = suspects.map((suspect) => byId.get(suspect.hypothesis)!);
  const everyPair = search !== undefined && search.examined.done === search.examined.of;
  return {
    suspects,
    groups: groupByRepair(suspects),
    paired: standing.length === 0 && search !== undefined,
    pairsExamined: search?.examined ?? { done: 0, of: 0 },
    survivingPairs: (search?.standing ?? []).map(([{ faults }]) => hypothesisId(faults)),
    fallen,
    parts: partStatuses(bench, session, suspects, fallen, everyPair ? partsOf(search.standing) : undefined),
    fits: suspects.length > 0 || abnormal.length === 0,
    abnormal: abnormal.length > 0,
    gone: isGone,
    open: openQuestions(bench, evidence, senses, left, massOf(bench, left)),
    findings,
    asks: asks(bench, session, proof, findings, { isSilent: senses.length === 0, isGone }),
    verified,
    blown: blownFuses(
      bench,
      inOrder,
      suspects.map((suspect) => suspect.share),
    ),
    hidden: depth.fit === true ? hiddenBehind(bench, evidence, inOrder) : [],
    assumedAway: singles
      .filter((both) => stands(both) && isAssumed(both))
      .map(([{ faults }]) => infoOf(faults[0]!)),
    triples: triples.length > 0,
  };
}

/**
 * Pairs are looked at when no single fault is left or what is left was repaired in vain, or when the whole picture is wanted; some also
 * beside single faults that fit in a far-fetched way only.
 * @param faults those that explain nothing alone
 */
function searchPairs(
  bench: Workbench,
  evidence: Evidence,
  faults: readonly Fault[],
  abnormal: readonly Observation[],
  { more: needed, beside }: { readonly more: boolean; readonly beside: boolean },
  depth: Depth,
): PairSearch | undefined {
  if (abnormal.length === 0 || (!needed && !beside && depth.allPairs !== true)) return undefined;
  const within = (limits: Limits) => judgePairs(bench, faults, evidence, abnormal, limits);
  if (depth.allPairs === true) return within(EVERY_PAIR);
  const [few, more] = [pairsAtOnce(bench, evidence), pairsFurther(bench, evidence)];
  const usual = within(few);
  const isFurther = needed && (more.pairs > few.pairs || more.boxes > few.boxes);
  return usual.standing.length === 0 && isFurther ? within(more) : usual;
}

function partsOf(standing: readonly Standing[]): ReadonlySet<string> {
  return new Set(standing.flatMap(([{ faults }]) => faults.map((fault) => fault.part)));
}

/** It failed as a repair, or happened to be away just when something looked well again: another fault may have been mended then. */
function isByChance(both: Standing): boolean {
  return isInVain(both) || both[0].fall !== undefined;
}

/** Part of the prior weight that still stands, less what speaks softly against it. */
function massOf(bench: Workbench, left: readonly Standing[]): number {
  const total = bench.faults.reduce((sum, fault) => sum + fault.weight, 0);
  return left.reduce((sum, both) => {
    const { faults, besides = [], soft } = leadingVerdict(both);
    const all = [...faults, ...besides];
    const odds = all.reduce((product, fault) => (product * fault.weight) / total, 1);
    const several = 0.05 ** (all.length - 1);
    return sum + soft.reduce((product, { factor }) => product * Math.min(1, factor), odds * several);
  }, 0);
}

function noteworthy(
  bench: Workbench,
  session: Case,
  suspect: Suspect,
  both: Standing,
  abnormal: readonly Sense[],
  depth: Depth,
): Suspect {
  const verdict = leadingVerdict(both);
  const standing = both.filter(({ fall }) => fall === undefined);
  const severities = verdict.faults.map((_, i) =>
    fitSeverity(bench, session, standing, i, depth.fit === true),
  );
  return {
    ...suspect,
    severities,
    explains: abnormal.flatMap((sense): Explained[] => {
      const { observation } = sense;
      if (!observation.hard || observation.kind === 'contrast') return [];
      const there = suspect.away ? [] : verdict.faults;
      const corners = [there.map((fault, i) => fault.apply(severities[i]?.value ?? fault.scale.edges[0]!))];
      const predictor = new Predictor(bench, asDrained(observation, verdict.faults));
      const bands = [...new Set([0, ...verdict.blown])].flatMap((mask) => predictor.bands(corners, mask));
      // Where several states are possible, those that agree with the reading are what this suspect says.
      const agreeing = bands.filter((band) => band.low <= observation.high && band.high >= observation.low);
      const shown = agreeing.length > 0 ? agreeing : bands;
      const low = Math.min(...shown.map((band) => band.low));
      const high = Math.max(...shown.map((band) => band.high));
      return [
        {
          finding: observation.finding,
          prediction: showRange(bench, observation, low, high),
          reading: observation.shown,
          healthy: showRange(bench, observation, sense.low, sense.high),
        },
      ];
    }),
  };
}

function fallenOf(bench: Workbench, verdict: Verdict): Fallen {
  const { observation, low, high } = verdict.fall!;
  return {
    hypothesis: hypothesisId(verdict.faults),
    faults: verdict.faults.map(infoOf),
    reason: {
      finding: observation.finding,
      prediction: low > high ? 'healthy again' : showRange(bench, observation, low, high),
      reading: shownBeside(bench, observation),
    },
  };
}

function groupByRepair(suspects: readonly Suspect[]): Diagnosis['groups'] {
  const groups = new Map<string, { repair: FaultInfo['repair']; suspects: Suspect[]; share: number }>();
  for (const suspect of suspects) {
    const how = [...new Set(suspect.faults.map((fault) => fault.repair.how))].join(' and ');
    const group = groups.get(how);
    if (group !== undefined) {
      group.suspects.push(suspect);
      group.share += suspect.share;
      continue;
    }
    const repair = {
      how,
      minutes: suspect.faults.reduce((sum, fault) => sum + fault.repair.minutes, 0),
      price: suspect.faults.reduce((sum, fault) => sum + fault.repair.price, 0),
    };
    groups.set(how, { repair, suspects: [suspect], share: suspect.share });
  }
  return [...groups.values()].sort((a, b) => b.share - a.share);
}
