/** What may be added to a session as it stands. The other half of the event core: `decide` says yes or no, the fold follows. */
import type { Circuit } from '../circuit/circuit.js';
import { describeEvent } from './describe-event.js';
import type { Event, Reading, Recorded } from './events.js';
import { hasLamp } from './fuse-places.js';
import { unknownId } from './known-ids.js';
import { observedBefore, observedOrder, undoneNumbers } from './observed-order.js';
import { impossible, refuse } from './refuse.js';
import type { SetUp } from './setup.js';
import { standingAfter } from './standing.js';

export type Decision =
  | { readonly ok: true; readonly events: readonly Event[] }
  | { readonly ok: false; readonly message: string; readonly mend: string };

/** The events, if each of them can follow the ones before it. All or none. */
export function decide(circuit: Circuit, recorded: readonly Recorded[], drafts: readonly Event[]): Decision {
  const soFar = [...recorded];
  for (const event of drafts) {
    const problem = problemWith(event, circuit, soFar);
    if (problem) return { ok: false, ...problem };
    soFar.push({ number: nextNumber(soFar), at: '', event });
  }
  return { ok: true, events: drafts };
}

/** Number the next recorded event gets: 1, 2, 3 … */
export function nextNumber(recorded: readonly Recorded[]): number {
  return (recorded.at(-1)?.number ?? 0) + 1;
}

/** The set-up that stood when the event of that number happened; after the last event when no number is given. */
export function standingSetUp(circuit: Circuit, recorded: readonly Recorded[], before?: number): SetUp {
  return standingAfter(circuit, observedBefore(recorded, before));
}

/** What has happened and cannot be taken back. */
const FIXED: ReadonlySet<Event['type']> = new Set<Event['type']>([
  ...(['opened', 'undone', 'paused', 'exercise', 'hinted', 'attempted'] as const),
]);

/** The last event that still counts and can be taken back; undefined when there is none. */
export function lastUndoable(recorded: readonly Recorded[]): Recorded | undefined {
  const undone = undoneNumbers(recorded);
  return recorded.findLast(({ number, event }) => !undone.has(number) && !FIXED.has(event.type));
}

interface Problem {
  readonly message: string;
  readonly mend: string;
}

function problemWith(event: Event, circuit: Circuit, recorded: readonly Recorded[]): Problem | undefined {
  const unknown = unknownId(event, circuit);
  if (unknown) return unknown;
  switch (event.type) {
    case 'did':
      return (
        beforeProblem(event.before, recorded) ??
        refuse(event.action, standingSetUp(circuit, recorded, event.before), circuit)
      );
    case 'found':
      return (
        beforeProblem(event.before, recorded) ??
        readingProblem(event.reading, standingSetUp(circuit, recorded, event.before))
      );
    case 'redrawn':
      return redrawnProblem(circuit, recorded);
    case 'undone':
      return undoProblem(event.number, circuit, recorded);
    case 'opened':
      return recorded.length === 0
        ? undefined
        : { message: 'The session is open already', mend: 'Record the next step.' };
    default:
      return undefined;
  }
}

function beforeProblem(before: number | undefined, recorded: readonly Recorded[]): Problem | undefined {
  if (before === undefined) return undefined;
  const target = recorded.find((entry) => entry.number === before);
  if (!target) return noSuchEvent(before, recorded);
  if (target.event.type === 'found' || target.event.type === 'did') return undefined;
  return {
    message: `Event ${before} is neither a finding nor an action, so nothing can come before it in time`,
    mend: 'Give the number of the action or finding that came next. To see them: list',
  };
}

/** A reading that needs something in place which is not there. */
function readingProblem(reading: Reading, setUp: SetUp): Problem | undefined {
  if (reading.kind !== 'fuse lamp' || hasLamp(reading.part, setUp)) return undefined;
  return {
    message: `No test lamp hangs in place of ${reading.part}`,
    mend: `First: lamp ${reading.part}`,
  };
}

/** `circuit` is the corrected drawing: everything recorded must still have its name in it. */
function redrawnProblem(circuit: Circuit, recorded: readonly Recorded[]): Problem | undefined {
  for (const { number, event } of observedOrder(recorded)) {
    const misfit = misfitOf(event, circuit);
    if (misfit)
      return {
        message: `Event ${number} does not fit the corrected drawing: ${misfit.message}`,
        mend: `Keep the name and the part in the circuit file, or first: undo ${number}`,
      };
  }
  return undefined;
}

/** What this drawing does not have, or does not let be done. */
function misfitOf(event: Event, circuit: Circuit): Problem | undefined {
  return unknownId(event, circuit) ?? (event.type === 'did' ? impossible(event.action, circuit) : undefined);
}

function undoProblem(number: number, circuit: Circuit, recorded: readonly Recorded[]): Problem | undefined {
  const target = recorded.find((entry) => entry.number === number);
  if (!target) return noSuchEvent(number, recorded);
  if (target.event.type === 'opened')
    return { message: 'The opening of the session cannot be undone', mend: 'Start another session instead.' };
  if (['exercise', 'hinted', 'attempted'].includes(target.event.type))
    return { message: `Event ${number} has happened and cannot be taken back`, mend: 'Go on from there.' };
  if (target.event.type === 'redrawn')
    return {
      message: 'A correction of the drawing cannot be undone: the file has changed',
      mend: 'Correct the circuit file once more, then: redraw',
    };
  if (target.event.type === 'undone') {
    const { number: revived } = target.event;
    // The drawing may have been corrected since, without that event's names.
    const misfit = misfitOf(recorded.find((entry) => entry.number === revived)!.event, circuit);
    if (misfit)
      return {
        message: `Event ${revived} would count again, but does not fit the corrected drawing: ${misfit.message}`,
        mend: 'Leave it undone, or put the name back into the circuit file and: redraw',
      };
  }
  if (undoneNumbers(recorded).has(number)) {
    const undo = recorded.findLast(({ event }) => event.type === 'undone' && event.number === number);
    const what = describeEvent(circuit, target.event, standingSetUp(circuit, recorded, number));
    return {
      message: `Event ${number} (${what}) is undone already`,
      mend: `To bring it back: undo ${undo?.number ?? number}`,
    };
  }
  return undefined;
}

function noSuchEvent(number: number, recorded: readonly Recorded[]): Problem {
  const last = recorded.at(-1)?.number;
  return {
    message: `There is no event ${number}`,
    mend:
      last === undefined ? 'Nothing is recorded yet.' : `Events are numbered 1 to ${last}. To see them: list`,
  };
}
