/**
 * The drawing as it was before, where its text is known: which of its values were changed, and whether that is what makes a
 * session differ. It is reasoned again by the earlier drawing, with the program of today.
 */
import { readFile } from 'node:fs/promises';
import { isAbsolute, join, relative } from 'node:path';
import { parseCircuit, type LoadedCircuit } from '../../files/circuit-file.js';
import { readYaml } from '../../files/yaml-source.js';
import { drawingChanges } from '../../report/replay-drawing.js';
import { healthyMoved, judgementDiffers } from '../../report/replay-diff.js';
import type { Recorded } from '../../session/events.js';
import type { Judgement } from '../../session/judgement.js';
import { misfits } from '../misfits.js';
import { memoryRecorder, Session } from '../session.js';
import type { Benches } from './benches.js';

/** Readings told, whose healthy value has moved. */
const MOST_MOVED = 4;

/** Text of the same file under the folder of an earlier state; undefined where there is none. */
export async function earlierText(
  file: string,
  { cwd, before }: { readonly cwd: string; readonly before?: string | undefined },
): Promise<string | undefined> {
  const place = relative(cwd, file);
  if (before === undefined || isAbsolute(place) || place.startsWith('..')) return undefined;
  return readFile(join(before, place), 'utf8').catch(() => undefined);
}

export interface Compared {
  readonly recorded: readonly Recorded[];
  readonly now: Judgement;
  /** Text of the drawing of today and of then. */
  readonly text: string;
  readonly earlier: string;
  readonly benches: Benches;
}

/**
 * Reasons that lie in the drawing.
 * @param sameAsThen whether a session judged by the earlier drawing comes out as it was recorded or expected
 * @param then what was concluded then, where it was recorded
 */
export function reasonsInDrawing(
  { recorded, now, text, earlier, benches }: Compared,
  sameAsThen: (session: Session) => boolean,
  then?: Judgement,
): readonly string[] {
  const loaded = parseCircuit(earlier);
  if ('problems' in loaded) return ['the earlier drawing cannot be read by this program'];
  const changes = changesBetween(earlier, text);
  if (changes.length === 0) return ['the drawing was changed only in its comments and layout'];
  const told = changes.map((change) => `the drawing was changed: ${change}`);
  const unknown = misfits(loaded.circuit, recorded);
  if (unknown.length > 0) return [...told, `the session does not fit the earlier drawing: ${unknown[0]}`];
  const session = sessionOn(loaded, recorded, benches);
  const before = session.judgement();
  const moved = healthyMoved(then ?? before, now);
  return [
    ...told,
    sameAsThen(session)
      ? 'by the earlier drawing it holds: the change makes the difference'
      : 'by the earlier drawing it differs too',
    ...(then === undefined ? judgementDiffers(before, now) : []),
    ...moved.slice(0, MOST_MOVED),
    ...(moved.length > MOST_MOVED ? [`and ${moved.length - MOST_MOVED} more readings`] : []),
  ];
}

export function sessionOn(
  { circuit, hash, source }: LoadedCircuit,
  recorded: readonly Recorded[],
  benches: Benches,
  name = '',
): Session {
  const bench = benches.of(circuit, hash);
  return new Session(bench.circuit, recorded, memoryRecorder(name), () => '', {
    bench,
    drawn: { hash, source },
  });
}

function changesBetween(earlier: string, text: string): readonly string[] {
  const [then, now] = [readYaml(earlier), readYaml(text)];
  if ('problems' in then || 'problems' in now) return [];
  return drawingChanges(then.document.value, now.document.value);
}
