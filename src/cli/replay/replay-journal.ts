/** Re-reasons one journal and compares with what was concluded when it was recorded. */
import { describeRepair, openJournal, readJournal } from '../../files/journal.js';
import { judgementDiffers } from '../../report/replay-diff.js';
import type { Recorded } from '../../session/events.js';
import { isComparable, type Judgement } from '../../session/judgement.js';
import { undoneNumbers } from '../../session/observed-order.js';
import { Failure } from '../failure.js';
import { misfits } from '../misfits.js';
import type { Replayed, ReplayOptions } from './replayed.js';
import { PROGRAM } from '../version.js';
import type { Benches } from './benches.js';
import { earlierText, reasonsInDrawing, sessionOn } from './earlier.js';
import { journalCircuit } from './journal-circuit.js';

const START_OF_HASH = 12;

export async function replayJournal(
  path: string,
  shown: string,
  options: ReplayOptions,
  benches: Benches,
): Promise<Replayed> {
  const { recorded, hash, repairs } = await readJournal(path);
  if (repairs.length > 0)
    throw new Failure(
      `it is not whole: ${repairs.map(describeRepair).join('; ').replace('cut off', 'to be cut off').replace('it is mended', 'it has to be mended')}`,
      `Look whether there is a whole copy. Else mend it: knowngood resume --session "${shown}".`,
    );
  const found = await journalCircuit(path, recorded, options.circuits);
  const { circuit, source } = found;
  const last = recorded.findLast(({ judged }) => judged !== undefined);
  const then = last?.judged !== undefined && isComparable(last.judged) ? last.judged : undefined;
  const notes: string[] = [];
  const recordedHash = then?.drawing.hash ?? openedHash(recorded);
  if (recordedHash !== found.hash)
    notes.push(
      `the drawing ${circuit.id} has changed since: SHA-256 ${recordedHash.slice(0, START_OF_HASH)} then, ${found.hash.slice(0, START_OF_HASH)} now`,
    );
  const wrong = misfits(circuit, recorded);
  const whole = sessionOn(found, recorded, benches, hash);
  const result = { title: shown, session: whole, circuit: circuit.id, reasons: [], notes };
  if (wrong.length > 0) return { ...result, differs: wrong };

  const compare = comparable(recorded, last, then, notes);
  const upTo = recorded.slice(0, recorded.findIndex(({ number }) => number === last?.number) + 1);
  const session =
    compare === undefined || upTo.length === recorded.length ? whole : sessionOn(found, upTo, benches, hash);
  const now = compare === undefined ? undefined : withNext(session, compare);
  const differs = compare === undefined || now === undefined ? [] : judgementDiffers(compare, now);
  const accept = async (at: string): Promise<readonly string[]> => {
    const { journal } = await openJournal(path);
    try {
      const [added] = await journal.append([{ type: 'paused' }], at, {
        ...whole.judgement(),
        accepted: true,
      });
      return [`what is concluded now is recorded beside event ${added!.number}`];
    } finally {
      await journal.close();
    }
  };
  const wanted = differs.length > 0 || compare === undefined || upTo.length < recorded.length;
  const all = { ...result, session, differs, ...(wanted ? { accept } : {}) };
  if (differs.length === 0 || compare === undefined || now === undefined) return all;

  if (compare.drawing.hash === found.hash)
    return {
      ...all,
      reasons: [`the drawing is the same: ${PROGRAM} concludes otherwise than ${compare.program} did`],
    };
  const earlier = textOf(recorded, compare) ?? (await earlierText(found.file, options));
  if (earlier === undefined) return all;
  const same = (old: typeof session): boolean =>
    judgementDiffers(compare, withNext(old, compare)).length === 0;
  return {
    ...all,
    reasons: reasonsInDrawing({ recorded: upTo, now, text: source, earlier, benches }, same, compare),
  };
}

/** What was concluded then, if it can be compared; why not goes to the notes. */
function comparable(
  recorded: readonly Recorded[],
  last: Recorded | undefined,
  then: Judgement | undefined,
  notes: string[],
): Judgement | undefined {
  const end = recorded.at(-1)?.event.type;
  if (last === undefined) {
    const open =
      end === 'closed' || end === 'paused' ? '' : ', and it ends without done or pause: more may be missing';
    notes.push(
      `it holds no conclusions to compare with, only events that can follow one another${open}; replay --update records today's`,
    );
    return undefined;
  }
  if (then === undefined) {
    notes.push(`the conclusions beside event ${last.number} are of a later program and were not compared`);
    return undefined;
  }
  const after = recorded.slice(recorded.indexOf(last) + 1);
  const redrawn = after.find(({ event }) => event.type === 'redrawn');
  if (redrawn !== undefined) {
    notes.push(
      `the drawing was corrected at event ${redrawn.number}, after the conclusions beside event ${last.number}: they were not compared; replay --update records today's`,
    );
    return undefined;
  }
  if (after.length > 0)
    notes.push(
      `compared with the conclusions beside event ${last.number}; ${after.length === 1 ? `event ${after[0]!.number} was` : `events ${after[0]!.number} to ${after.at(-1)!.number} were`} recorded after them${end === 'closed' || end === 'paused' ? '' : ', and it ends without done or pause'}`,
    );
  return then;
}

/** The next test is worked out only where one was recorded. */
function withNext(session: Replayed['session'], then: Judgement): Judgement {
  if (then.next !== undefined) void session.suggestions;
  return session.judgement();
}

function textOf(recorded: readonly Recorded[], { drawing }: Judgement): string | undefined {
  for (const { judged } of recorded)
    if (judged !== undefined && isComparable(judged) && judged.drawing.hash === drawing.hash)
      if (judged.drawing.text !== undefined) return judged.drawing.text;
  return undefined;
}

function openedHash(recorded: readonly Recorded[]): string {
  const undone = undoneNumbers(recorded);
  const drawings = recorded.flatMap(({ number, event }) =>
    !undone.has(number) && (event.type === 'opened' || event.type === 'redrawn') ? [event.circuit.hash] : [],
  );
  return drawings.at(-1) ?? '';
}
