/**
 * The fold: what a list of recorded events amounts to. Pure and total: any list of events of this circuit folds, so that
 * a session can always be opened again; what may be added to it is `decide`'s business.
 */
import type { Circuit } from '../circuit/circuit.js';
import type { Case, Drawing, Finding, Step } from './case.js';
import type { Concern, Event, MeterMode, Recorded } from './events.js';
import { observedOrder } from './observed-order.js';
import { isLive, isZeroLike, modeOf } from './proof.js';
import { atRest, type SetUp } from './setup.js';
import { standingAfterOne, whenSetUp } from './standing.js';

export { ENGINE } from './standing.js';

export function foldCase(circuit: Circuit, recorded: readonly Recorded[]): Case {
  const order = observedOrder(recorded);
  const proofs = proofsOf(order, circuit);
  let now: SetUp = atRest(circuit);
  let symptom: 'present' | 'absent' = 'present';
  let said: Case['said'];
  let concern: Concern = {};
  const timeline: Step[] = [];
  const assumed: string[] = [];
  const skipped: Case['skipped'][number][] = [];
  const notes: Case['notes'][number][] = [];
  let drawing: Drawing | undefined;
  let opened: Extract<Event, { type: 'opened' }> | undefined;
  let concluded: Case['concluded'];
  let closed = false;

  for (const { number, at, event } of order) {
    switch (event.type) {
      case 'opened':
        opened = event;
        drawing ??= event.circuit;
        break;
      case 'redrawn':
        drawing = event.circuit;
        break;
      case 'concern':
        concern = joinConcern(concern, event.concern);
        break;
      case 'did':
        timeline.push({ kind: 'action', number, at, action: event.action });
        break;
      case 'found':
        symptom = event.symptom ?? symptom;
        if (event.symptom !== undefined || event.reading.kind === 'load') said = event.symptom;
        timeline.push({
          kind: 'finding',
          finding: findingOf(event, number, at, whenSetUp(event.when ?? [], now), symptom, proofs),
        });
        break;
      case 'symptom':
        symptom = said = event.symptom;
        break;
      case 'assumed':
        if (!assumed.includes(event.part)) assumed.push(event.part);
        break;
      case 'noted':
        notes.push({ number, at, text: event.text });
        break;
      case 'skipped':
        skipped.push({ test: event.test, why: event.why });
        break;
      case 'concluded':
        concluded = { number, at: event.at, time: at, words: event.words };
        break;
      case 'closed':
        closed = true;
        break;
      case 'proved':
      case 'paused':
      case 'undone':
      case 'exercise':
      case 'predicted':
      case 'claimed':
      case 'hinted':
      case 'attempted':
        break;
    }
    now = standingAfterOne(event, now);
    // A closed session in which something more was recorded is open again.
    if (event.type !== 'closed' && event.type !== 'noted' && event.type !== 'paused') closed = false;
  }

  return {
    circuit: drawing ?? { id: circuit.id, hash: '', file: '' },
    program: opened?.program ?? '',
    concern,
    timeline,
    now,
    symptom,
    said,
    proofs,
    assumed,
    skipped,
    notes,
    concluded,
    closed,
    startedAt: recorded[0]?.at ?? '',
    lastAt: recorded.at(-1)?.at ?? '',
  };
}

/** The drawing a session stands on after these events, so that its file can be opened; undefined before the opening. */
export function drawingOf(recorded: readonly Recorded[]): Drawing | undefined {
  let drawing: Drawing | undefined;
  for (const { event } of observedOrder(recorded))
    if (event.type === 'opened' || event.type === 'redrawn') drawing = event.circuit;
  return drawing;
}

function findingOf(
  event: Extract<Event, { type: 'found' }>,
  number: number,
  at: string,
  setUp: SetUp,
  symptom: 'present' | 'absent',
  proofs: ReadonlySet<MeterMode>,
): Finding {
  const { reading } = event;
  const mode = modeOf(reading);
  return {
    number,
    at,
    setUp,
    reading,
    battery: event.battery,
    symptom,
    evidence: event.evidence ?? (mode === undefined ? 'seen' : 'measured'),
    proved: mode === undefined || !isZeroLike(reading) || proofs.has(mode),
  };
}

/** Modes proved anywhere in the session: said so, or shown by a reading that only a working meter gives. */
function proofsOf(order: readonly Recorded[], circuit: Circuit): ReadonlySet<MeterMode> {
  const proofs = new Set<MeterMode>();
  for (const { event } of order) {
    if (event.type === 'proved') proofs.add(event.mode);
    if (event.type !== 'found' || event.evidence === 'told') continue;
    const mode = modeOf(event.reading);
    // Battery volts typed beside a reading were taken with the same meter and leads, on a known-live point.
    if (event.battery !== undefined && event.battery.value >= circuit.nominalVolts / 2) proofs.add('volts');
    if (mode !== undefined && isLive(event.reading, circuit.nominalVolts)) proofs.add(mode);
  }
  return proofs;
}

/** Later answers replace earlier ones; history answers add up. */
function joinConcern(before: Concern, more: Concern): Concern {
  const history = [...(before.history ?? []), ...(more.history ?? [])];
  return { ...before, ...more, ...(history.length > 0 ? { history } : {}) };
}
