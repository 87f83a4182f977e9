/** Re-reasons one session written by hand and compares with what it expects. */
import { readFile } from 'node:fs/promises';
import { printDiagnostics } from '../../circuit/print-diagnostic.js';
import { systemCode } from '../../files/journal-error.js';
import { readSessionFile, type LoadedSession } from '../../files/session-file.js';
import { replaceFile, withExpectation } from '../../files/session-update.js';
import { Failure } from '../failure.js';
import type { Replayed, ReplayOptions } from './replayed.js';
import { acceptable, firstExpectation, type Accepted } from './accept.js';
import type { Benches } from './benches.js';
import { yamlKind } from './collect.js';
import { earlierText, reasonsInDrawing, sessionOn } from './earlier.js';
import { compareExpected, type Difference } from './expectations.js';

const START_OF_HASH = 12;

export async function replayScript(
  path: string,
  shown: string,
  options: ReplayOptions,
  benches: Benches,
): Promise<Replayed> {
  await refuseOthers(path);
  const loaded = await readSessionFile(path);
  if ('problems' in loaded)
    throw new Failure(printDiagnostics(loaded.source, shown, loaded.problems).join('\n'));
  const { circuitFile, circuit, recorded, expect } = loaded;
  const text = await readFile(circuitFile, 'utf8');
  const hash = drawingHash(loaded);
  const session = sessionOn({ circuit, hash, source: text, advice: [] }, recorded, benches, loaded.hash);
  const found = compareExpected(session, expect);
  const differs = found.map(({ line }) => line);
  const notes: string[] = [];
  if (Object.keys(expect).length === 0)
    notes.push(
      'it expects nothing: only that its steps can be taken was checked; replay --update writes what comes out',
    );
  if (expect.drawing !== undefined && !hash.startsWith(expect.drawing))
    notes.push(
      `the drawing ${circuit.id} has changed since: SHA-256 ${expect.drawing.slice(0, START_OF_HASH)} expected, ${hash.slice(0, START_OF_HASH)} now`,
    );
  const accept = (): Promise<readonly string[]> => acceptToday(path, loaded, found, session);
  const wanted = differs.length > 0 || notes.length > 0;
  const all: Replayed = {
    title: loaded.title,
    session,
    circuit: circuit.id,
    differs,
    reasons: [],
    notes,
    ...(wanted ? { accept } : {}),
  };
  if (differs.length === 0) return all;
  const earlier = await earlierText(circuitFile, options);
  if (earlier === undefined || earlier === text) return all;
  const holds = (old: Replayed['session']): boolean => compareExpected(old, expect).length === 0;
  const now = session.judgement();
  return { ...all, reasons: reasonsInDrawing({ recorded, now, text, earlier, benches }, holds) };
}

/** A file of another kind would only be told everything that it lacks. */
async function refuseOthers(path: string): Promise<void> {
  const kind = await yamlKind(path);
  if (kind === 'circuit' || kind === 'exercise')
    throw new Failure(
      `this is ${kind === 'circuit' ? 'a circuit' : 'an exercise'} file, not a session`,
      kind === 'circuit'
        ? 'To check it: knowngood check FILE.'
        : 'Leave it out: replay takes sessions and journals.',
    );
}

async function acceptToday(
  path: string,
  loaded: LoadedSession,
  found: readonly Difference[],
  session: Replayed['session'],
): Promise<readonly string[]> {
  const { expect } = loaded;
  const keys = [...new Set(found.map(({ key }) => key))];
  const none = Object.keys(expect).length === 0;
  const entries: Accepted = new Map([
    ...(none ? firstExpectation(session) : acceptable(session, expect, keys)),
    ['drawing', drawingHash(loaded).slice(0, START_OF_HASH)],
  ]);
  try {
    const text = await readFile(path, 'utf8');
    await replaceFile(path, withExpectation(text, entries));
  } catch (error) {
    throw new Failure(
      `what it expects could not be written (${systemCode(error) || 'unknown reason'})`,
      'Nothing was changed. Check that the file and its folder may be written to.',
      undefined,
      { cause: error },
    );
  }
  return [...entries].map(([key, value]) => `${key}: ${valueWords(value)}`);
}

function valueWords(value: Accepted extends ReadonlyMap<string, infer V> ? V : never): string {
  if (value === undefined) return 'taken out';
  if (typeof value === 'string') return value;
  if (value instanceof Map)
    return [...(value as ReadonlyMap<string, string | undefined>)]
      .map(([fault, range]) => `${fault} ${range ?? 'taken out'}`)
      .join(', ');
  return `[${(value as readonly string[]).join(', ')}]`;
}

/** The opening names the file that the steps were played on. */
function drawingHash({ recorded }: LoadedSession): string {
  const [first] = recorded;
  return first?.event.type === 'opened' ? first.event.circuit.hash : '';
}
