/**
 * From a session to its diagnosis: every fault judged against every reading, what is left ranked and grouped by repair, and for
 * what fell the reading that felled it. A pure function of circuit and session.
 */
import type { Case, Finding } from '../session/case.js';
import type {
  Diagnosis,
  Fallen,
  FaultInfo,
  FindingSense,
  OpenQuestion,
  PartStatus,
  Status,
  Suspect,
} from './diagnosis-types.js';
import type { Evidence } from './evidence-types.js';
import { gather } from './evidence.js';
import type { Fault } from './faults.js';
import { partLabel } from './labels.js';
import type { Observation } from './observe.js';
import { judgePairs } from './pairs.js';
import { Predictor } from './predict.js';
import { confirmedBy } from './proof-of-cause.js';
import { proveRepair } from './proof-of-repair.js';
import type { Verdict } from './verdict.js';
import { judge } from './verdict.js';
import { showRange } from './wording.js';
import type { Workbench } from './workbench.js';

/** Prior weight of two independent faults, against their product: two at once are rare. */
export const PAIR_WEIGHT = 0.005;

export function diagnose(bench: Workbench, session: Case): Diagnosis {
  const evidence = gather(bench, session);
  const senses = judgeFindings(bench, evidence);
  const abnormal = senses.filter((sense) => sense.abnormal);
  const verdicts = bench.faults.map((fault) => judge(bench, [fault], evidence));
  const assumed = new Set(session.assumed);
  let standing: readonly Verdict[] = verdicts.filter(
    ({ fall, faults }) => fall === undefined && !faults.some((fault) => assumed.has(fault.part)),
  );
  const fallen = verdicts.flatMap((verdict) => fallenOf(bench, verdict));
  let pairsExamined = { done: 0, of: 0 };
  const paired = standing.length === 0 && abnormal.length > 0;
  if (paired) {
    const candidates = bench.faults.filter((fault) => !assumed.has(fault.part));
    const search = judgePairs(
      bench,
      candidates,
      evidence,
      abnormal.map((sense) => sense.observation),
    );
    standing = search.standing;
    pairsExamined = search.examined;
  }
  const verified = proveRepair(session.timeline, abnormalFindings(senses)).state === 'verified';
  const suspects = rank(bench, session, standing, paired, verified);
  const fits = suspects.length > 0 || abnormal.length === 0;
  const groups = groupByRepair(suspects);
  return {
    suspects,
    groups,
    paired,
    pairsExamined,
    fallen,
    parts: partStatuses(bench, session, suspects, fallen),
    fits,
    abnormal: abnormal.length > 0,
    open: openQuestions(senses, fits),
    findings: describeFindings(bench, session, senses, verdicts),
    asks: asks(bench, session, senses),
    verified,
  };
}

interface Sense {
  readonly observation: Observation;
  readonly low: number;
  readonly high: number;
  readonly abnormal: boolean;
}

/** What a healthy vehicle would have read, observation by observation. */
function judgeFindings(bench: Workbench, evidence: Evidence): Sense[] {
  return evidence.steps.flatMap((step) => {
    if (step.kind !== 'observation') return [];
    const { observation } = step;
    const bands = new Predictor(bench, observation).bands([[]], 0);
    const low = Math.min(...bands.map((band) => band.low));
    const high = Math.max(...bands.map((band) => band.high));
    return [{ observation, low, high, abnormal: low > observation.high || high < observation.low }];
  });
}

/** Numbers of the findings that a healthy vehicle would not show. */
function abnormalFindings(senses: readonly Sense[]): ReadonlySet<number> {
  // A lamp that works as it should beside a dead one is not itself out of order.
  const bad = senses.filter((sense) => sense.abnormal && sense.observation.kind !== 'contrast');
  return new Set(bad.map((sense) => sense.observation.finding));
}

function rank(
  bench: Workbench,
  session: Case,
  standing: readonly Verdict[],
  paired: boolean,
  verified: boolean,
): Suspect[] {
  const weights = standing.map((verdict) => {
    const prior = verdict.faults.reduce((product, fault) => product * fault.weight, paired ? PAIR_WEIGHT : 1);
    return prior * verdict.favour * Math.max(verdict.room, 1e-3);
  });
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const order = standing
    .map((_, i) => i)
    .sort((i, j) => weights[j]! - weights[i]! || compare(standing[i]!, standing[j]!));
  const ranked = order.map((i) => toSuspect(standing[i]!, total === 0 ? 0 : weights[i]! / total));
  const confirmed = confirmedBy(bench, session, ranked, verified);
  return ranked.map((suspect) =>
    confirmed.has(suspect.hypothesis) ? { ...suspect, confirmed: true } : suspect,
  );
}

function compare(a: Verdict, b: Verdict): number {
  const [x, y] = [hypothesisId(a.faults), hypothesisId(b.faults)];
  return x < y ? -1 : x > y ? 1 : 0;
}

export function hypothesisId(faults: readonly { readonly id: string }[]): string {
  return faults.map((fault) => fault.id).join(' + ');
}

function info(fault: Fault): FaultInfo {
  const { id, site, part, label, repair } = fault;
  return { id, site, part, label, repair };
}

function toSuspect(verdict: Verdict, share: number): Suspect {
  const [fault] = verdict.faults;
  const [range] = verdict.severity;
  const unit = fault!.scale.unit;
  const known = range !== undefined && unit !== 'none' && !Number.isNaN(range.low);
  return {
    hypothesis: hypothesisId(verdict.faults),
    faults: verdict.faults.map(info),
    share,
    severity: known ? { unit, low: range.low, high: range.high } : undefined,
    confirmed: false,
    touched: verdict.touched,
  };
}

function fallenOf(bench: Workbench, verdict: Verdict): Fallen[] {
  if (verdict.fall === undefined) return [];
  const { observation, low, high } = verdict.fall;
  return [
    {
      hypothesis: hypothesisId(verdict.faults),
      faults: verdict.faults.map(info),
      reason: {
        finding: observation.finding,
        prediction: low > high ? 'healthy again' : showRange(bench, observation, low, high),
        reading: observation.shown,
      },
    },
  ];
}

function groupByRepair(suspects: readonly Suspect[]): Diagnosis['groups'] {
  const groups = new Map<
    string,
    { repair: Suspect['faults'][number]['repair']; suspects: Suspect[]; share: number }
  >();
  for (const suspect of suspects) {
    const how = suspect.faults.map((fault) => fault.repair.how).join(' and ');
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

/** Status of every part and wire that has faults, in the order of the circuit. */
function partStatuses(
  bench: Workbench,
  session: Case,
  suspects: readonly Suspect[],
  fallen: readonly Fallen[],
): PartStatus[] {
  const ids = [...new Set(bench.faults.map((fault) => fault.part))];
  return ids.map((part) => {
    const own = suspects.filter((suspect) => suspect.faults.some((fault) => fault.part === part));
    const share = own.reduce((sum, suspect) => sum + suspect.share, 0);
    const status: Status = session.assumed.includes(part)
      ? 'assumed'
      : own.some((suspect) => suspect.confirmed)
        ? 'confirmed'
        : own.length > 0
          ? 'suspect'
          : 'not on its own';
    return {
      part,
      label: partLabel(bench.circuit, part),
      status,
      share,
      best: own[0]?.faults.find((fault) => fault.part === part),
      fallen: fallen.filter((entry) => entry.faults[0]!.part === part),
    };
  });
}

/** Per finding: what it proved, by the parts whose last suspicion it took away. */
function describeFindings(
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
    fallenAt.set(finding, [...(fallenAt.get(finding) ?? []), verdict]);
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
    return {
      number: finding.number,
      provedWhat: provedWords(
        finding,
        gone,
        weaker.filter((part) => !gone.includes(part)),
        hard,
        main,
      ),
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
  if (!hard) return 'A zero from a meter not yet proved: it ranks until the meter is proved.';
  if (gone.length > 0) return `Not faulty on their own any more: ${gone.join(', ')}.`;
  if (weaker.length > 0) return `Fewer ways left in which ${weaker.join(', ')} can be at fault.`;
  return 'Agrees with everything that was still possible; it took nothing away.';
}

function openQuestions(senses: readonly Sense[], fits: boolean): OpenQuestion[] {
  const abnormal = senses.filter((sense) => sense.abnormal).map((sense) => sense.observation.finding);
  if (senses.length > 0 && abnormal.length === 0) {
    return [
      {
        what: 'no fault now',
        advice: 'Nothing found so far differs from a healthy vehicle. Reproduce the complaint first.',
        findings: [],
      },
    ];
  }
  if (fits) return [];
  const numbers = [...new Set(abnormal)];
  return [
    {
      what: 'a reading is wrong',
      advice: `Take the readings again that do not fit: ${numbers.map((n) => `#${n}`).join(', ')}.`,
      findings: numbers,
    },
    {
      what: 'no fault now',
      advice: 'The fault may have come and gone between two readings: repeat the failed condition.',
      findings: [],
    },
    {
      what: 'the drawing differs',
      advice:
        'This vehicle may be wired otherwise than the drawing: check for added wires, splices and changed parts.',
      findings: [],
    },
  ];
}

function asks(bench: Workbench, session: Case, senses: readonly Sense[]): string[] {
  const wanted: string[] = [];
  const unproved = session.timeline.find(
    (step) => step.kind === 'finding' && !step.finding.proved && step.finding.evidence !== 'told',
  );
  if (unproved?.kind === 'finding') {
    wanted.push(
      `Finding #${unproved.finding.number} is a zero. Prove the meter on a known-live point (ten seconds), then type: prove ${proofWord(unproved.finding)}`,
    );
  }
  if (senses.length === 0) {
    const load = [...bench.network.loads.keys()][0] ?? 'H1';
    const control = [...bench.circuit.controls.values()][0];
    const when = control === undefined ? '' : ` when ${control.id} ${control.positions.at(-1)!}`;
    wanted.push(`Say what fails and what works, in which condition, like: fails ${load}${when}`);
  }
  return wanted;
}

function proofWord(finding: Finding): string {
  const { kind } = finding.reading;
  return kind === 'continuity' ? 'ohms' : kind === 'test lamp' ? 'testlamp' : kind;
}
