/** From a session and its diagnosis to the report as data. Pure: clock, hash and version come in as arguments. */
import type { Circuit } from '../circuit/circuit.js';
import { partLabel } from '../diagnosis/labels.js';
import type { WeakLink } from '../diagnosis/drop-one.js';
import type { Alike, Diagnosis, Reason, Suspect } from '../diagnosis/diagnosis-types.js';
import { isRepair } from '../diagnosis/proof-of-repair.js';
import type { Case, Finding, Step } from '../session/case.js';
import { describeAction, describeReading, describeSetUp } from '../session/describe.js';
import { causeOf, faultWords } from './cause.js';
import { customerParagraph } from './customer.js';
import { REPORT_SCHEMA, type Report, type ReportStep, type RuledOut } from './report-data.js';
import { few, listWords, percent } from './layout.js';
import { suspectSeverities } from './severity-words.js';
import { assumedAwayWords, measuredWords, softWords } from './soft-words.js';
import { alikeWords, openedWords, hiddenWords, weakLinkWords } from './symptom-words.js';
import { verify, type Proof } from './verification.js';

export interface ReportInput {
  readonly circuit: Circuit;
  readonly session: Case;
  readonly diagnosis: Diagnosis;
  /** Name and version of the program that writes the report. */
  readonly program: string;
  /** Fingerprint of the session's journal. */
  readonly sessionHash: string;
  /** False leaves out the names of people and the vehicle's identity. */
  readonly personal: boolean;
  /** Groups of suspects that no reachable test tells apart. */
  readonly alike?: readonly Alike[];
  /** Findings on which the answer hangs. */
  readonly weakLinks?: readonly WeakLink[];
  /** Texts of the cautions shown during the session. */
  readonly cautions: readonly string[];
}

/** Money for parts fitted new at the circuit's price, where no repair of that part names a price of its own. */
function newParts(
  circuit: Circuit,
  session: Case,
  repairs: readonly { readonly at: string; readonly price?: number }[],
): number {
  const fitted = session.timeline.flatMap((step) =>
    step.kind === 'action' && step.action.do === 'fit new' ? [step.action.part] : [],
  );
  const priced = (part: string) => repairs.some((repair) => repair.at === part && repair.price !== undefined);
  return fitted
    .filter((part) => !priced(part))
    .reduce((sum, part) => sum + (circuit.parts.get(part)?.price ?? 0), 0);
}

export function buildReport(input: ReportInput): Report {
  const { circuit, session, diagnosis } = input;
  const abnormal = new Set(diagnosis.findings.filter((one) => one.abnormal).map((one) => one.number));
  const proof = verify(circuit, session.timeline, abnormal);
  const cause = causeOf(session, diagnosis, proof);
  const repairs = session.timeline.flatMap((step) =>
    step.kind === 'action' && step.action.do === 'repair' ? [step.action] : [],
  );
  const corrections = proof.corrections.map((action) => describeAction(circuit, action));
  const price =
    repairs.reduce((sum, repair) => sum + (repair.price ?? 0), 0) + newParts(circuit, session, repairs);
  const minutesOpen = minutesBetween(session.startedAt, session.lastAt);
  const { state, words, repeated, missing } = proof;
  const verification = { state, words, repeated, missing };
  return {
    schema: REPORT_SCHEMA,
    kind: 'knowngood report',
    program: input.program,
    sessionHash: input.sessionHash,
    circuit: { id: circuit.id, title: circuit.title, hash: session.circuit.hash },
    customer: customerParagraph({ session, cause, verification, corrections, price }),
    concern: session.concern.complaint ?? 'not recorded',
    cause,
    correction: corrections,
    vehicle: vehicleLines(session, input.personal),
    history: session.concern.history ?? [],
    ...foundAndLeft(circuit, session, abnormal, proof),
    instrument: [session.concern.meter ?? 'not recorded', ...proofWords(session)],
    steps: session.timeline.map((step) => stepOf(circuit, step, diagnosis)),
    ruledOut: ruledOut(diagnosis),
    clearedUntested: clearedUntested(circuit, session, diagnosis),
    assumed: session.assumed.map((id) => partLabel(circuit, id)),
    assumedAway: assumedAwayWords(diagnosis.assumedAway),
    soft: softOf(diagnosis),
    blown: diagnosis.blown.map(openedWords),
    hidden: diagnosis.hidden.map(hiddenWords),
    alike: (input.alike ?? []).flatMap(alikeWords),
    weakLinks: (input.weakLinks ?? []).map(weakLinkWords),
    open: diagnosis.open.map(({ what, advice, share }) => `${what} (${percent(share)}): ${advice}`),
    skipped: session.skipped.map((one) => `${one.test} (${one.why})`),
    remaining: remaining(diagnosis, cause.faults),
    asks: diagnosis.asks,
    ...partsOf(circuit, session),
    ...(minutesOpen === undefined ? {} : { minutesOpen }),
    repairMinutes: repairs.reduce((sum, repair) => sum + (repair.minutes ?? 0), 0),
    price,
    verification,
    notes: session.notes.map((note) => note.text),
    cautions: input.cautions,
    closed: session.closed,
  };
}

function vehicleLines(session: Case, personal: boolean): readonly (readonly [string, string])[] {
  const { vehicle, odometer, technician, customer } = session.concern;
  const removed = 'removed';
  const lines: (readonly [string, string | undefined])[] = [
    ['Vehicle', personal ? vehicle : vehicle && removed],
    ['Odometer', odometer],
    ['Customer', personal ? customer : customer && removed],
    ['Technician', personal ? technician : technician && removed],
    ['Date', session.startedAt.slice(0, 10)],
  ];
  return lines.map(([label, value]) => [label, value || 'not recorded']);
}

function stepOf(circuit: Circuit, step: Step, diagnosis: Diagnosis): ReportStep {
  if (step.kind === 'action') {
    const words = describeAction(circuit, step.action);
    return { number: step.number, time: clock(step.at), kind: 'done', conditions: '', words, proved: '' };
  }
  const { finding } = step;
  const said = diagnosis.findings.find((one) => one.number === finding.number);
  const battery = finding.battery === undefined ? '' : ` (battery ${finding.battery.value} V)`;
  const unproved = finding.proved ? '' : ' Meter not proved on a live point: this zero rules nothing out.';
  return {
    number: finding.number,
    time: clock(finding.at),
    kind: finding.evidence,
    conditions: conditions(circuit, finding),
    words: describeReading(circuit, finding.reading) + battery,
    proved: `${said?.provedWhat ?? ''}${unproved}`.trim(),
  };
}

function conditions(circuit: Circuit, finding: Finding): string {
  const words = describeSetUp(circuit, finding.setUp);
  return words.length === 0 ? 'everything at rest' : words.join(', ');
}

function foundAndLeft(
  circuit: Circuit,
  session: Case,
  abnormal: ReadonlySet<number>,
  proof: Proof,
): { readonly asFound: readonly string[]; readonly asLeft: readonly string[] } {
  const loads = session.timeline.flatMap((step, index) =>
    step.kind === 'finding' && step.finding.reading.kind === 'load' ? [{ finding: step.finding, index }] : [],
  );
  const words = ({ finding }: { finding: Finding }): string =>
    `${describeReading(circuit, finding.reading)}, ${conditions(circuit, finding)}`;
  const firstRepair = session.timeline.findIndex((step) => step.kind === 'action' && isRepair(step.action));
  const lastRepair = session.timeline.findLastIndex(
    (step) => step.kind === 'action' && isRepair(step.action),
  );
  const before = firstRepair === -1 ? session.timeline.length : firstRepair;
  const asFound = loads
    .filter(({ finding, index }) => index < before && abnormal.has(finding.number))
    .map(words);
  const after = loads.filter(({ index }) => lastRepair !== -1 && index > lastRepair).map(words);
  const asLeft =
    after.length > 0
      ? after
      : [proof.recoveredBefore ? 'working again without a repair; see the findings' : 'not recorded'];
  return { asFound: [...new Set(asFound)], asLeft: [...new Set(asLeft)] };
}

function proofWords(session: Case): readonly string[] {
  const proofs = [...session.proofs];
  return proofs.length === 0
    ? ['meter not proved in this session']
    : [`shown to work in this session: ${proofs.join(', ')}`];
}

/** Faults that fell by the same finding and prediction stand together; a page of single lines would be read by nobody. */
function ruledOut(diagnosis: Diagnosis): readonly RuledOut[] {
  const together = new Map<string, { faults: string[]; parts: Set<string>; reason: Reason }>();
  for (const { faults, reason } of diagnosis.fallen) {
    const key = JSON.stringify([reason.finding, reason.prediction]);
    const entry = together.get(key) ?? { faults: [], parts: new Set<string>(), reason };
    entry.faults.push(faults.map((fault) => fault.label).join(', together with '));
    for (const fault of faults) entry.parts.add(fault.part);
    together.set(key, entry);
  }
  return [...together.values()]
    .sort((a, b) => a.reason.finding - b.reason.finding)
    .map(({ faults, parts, reason }) => ({
      faults,
      parts: [...parts],
      finding: reason.finding,
      reading: reason.reading,
      predicted: reason.prediction,
    }));
}

/** Cleared parts at which nothing was measured, seen or done. */
function clearedUntested(circuit: Circuit, session: Case, diagnosis: Diagnosis): readonly string[] {
  const visited = new Set<string>();
  const visit = (name: string): void => void visited.add(name.split(/[./:]/)[0]!);
  for (const step of session.timeline) {
    const about = step.kind === 'finding' ? step.finding.reading : step.action;
    for (const key of ['red', 'black', 'at', 'load', 'part', 'connector'] as const) {
      const name = (about as unknown as Record<string, unknown>)[key];
      if (typeof name === 'string') visit(name);
    }
    if ('between' in about) about.between.forEach(visit);
  }
  const together = new Map<string, string[]>();
  for (const { part, status, fallen } of diagnosis.parts) {
    if ((status !== 'cleared' && status !== 'not on its own') || visited.has(part)) continue;
    const numbers = [...new Set(fallen.map((one) => one.reason.finding))].sort((a, b) => a - b);
    const by = numbers.length === 0 ? '' : ` by finding ${listWords(numbers.map(String))}`;
    const key = `${status}${by}`;
    together.set(key, [...(together.get(key) ?? []), partLabel(circuit, part)]);
  }
  return [...together].map(([how, parts]) => `${how}: ${parts.join(', ')}`);
}

/** Explanations with less than this share stand together in one line, by their parts. */
const OWN_LINE = 0.005;

function remaining(diagnosis: Diagnosis, named: readonly string[]): readonly string[] {
  const others = diagnosis.suspects.filter((suspect) => !named.includes(faultWords(suspect)));
  const small = others.filter(({ share }) => share < OWN_LINE);
  const parts = new Set(small.flatMap(({ faults }) => faults.map(({ part }) => part)));
  return [
    ...others.filter(({ share }) => share >= OWN_LINE).map(remainingWords),
    ...(small.length === 0 ? [] : [`${small.length} more under 1 % each, at: ${[...parts].join(', ')}`]),
  ];
}

function remainingWords(suspect: Suspect): string {
  const notes = [
    percent(suspect.share),
    measuredWords([suspect]),
    ...suspectSeverities(suspect, 'without place'),
    suspect.course === 'comes and goes' ? 'only as one that comes and goes' : undefined,
  ].filter((words) => words !== undefined);
  return `${faultWords(suspect)} (${notes.join('; ')})`;
}

/** Soft notes of the suspects worth naming, each once. */
function softOf({ suspects }: Diagnosis): readonly string[] {
  const named = suspects.filter(({ share, measuredShare }) => Math.max(share, measuredShare) >= WORTH_NAMING);
  const words = named.flatMap((suspect) =>
    softWords([suspect]).map((note) => [note, faultWords(suspect)] as const),
  );
  const together = new Map<string, string[]>();
  for (const [note, who] of words) together.set(note, [...(together.get(note) ?? []), who]);
  return [...together].map(([note, who]) => `${note} [${few(who, 3)}]`);
}

/** Suspects with less than this share are left out of the list of what soft evidence moved. */
const WORTH_NAMING = 0.02;

function partsOf(
  circuit: Circuit,
  session: Case,
): { readonly replaced: readonly string[]; readonly notReplaced: readonly string[] } {
  const actions = session.timeline.flatMap((step) => (step.kind === 'action' ? [step.action] : []));
  const fitted = new Set(actions.flatMap((action) => (action.do === 'fit new' ? [action.part] : [])));
  const out = new Set(actions.flatMap((action) => (action.do === 'take out' ? [action.part] : [])));
  const words = (id: string): string => partLabel(circuit, id);
  return {
    replaced: [...fitted].map(words),
    notReplaced: [...out]
      .filter((id) => !fitted.has(id))
      .map((id) => `${words(id)}: taken out, the same item refitted or kept`),
  };
}

/** "10:42" of an ISO time, as it was written; empty when there is none. */
function clock(at: string): string {
  return /T(\d\d:\d\d)/.exec(at)?.[1] ?? '';
}

function minutesBetween(from: string, to: string): number | undefined {
  const minutes = (Date.parse(to) - Date.parse(from)) / 60_000;
  return Number.isFinite(minutes) ? Math.max(0, Math.round(minutes)) : undefined;
}
