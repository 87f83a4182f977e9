/** Finds, begins and opens sessions on the disk. */
import { resolve } from 'node:path';
import type { Circuit } from '../circuit/circuit.js';
import { createJournal, describeRepair, openJournal, readJournal } from '../files/journal.js';
import { listSessions, newSessionFile, sessionFolder, type Surroundings } from '../files/places.js';
import type { Recorded } from '../session/events.js';
import { undoneNumbers } from '../session/observed-order.js';
import { unknownId } from '../session/known-ids.js';
import type { Context } from './context.js';
import { Failure } from './failure.js';
import { findCircuit, type FoundCircuit } from './find-circuit.js';
import { memoryRecorder, Session } from './session.js';
import { PROGRAM } from './version.js';

export interface SessionFlags {
  /** Journal file; left out = the newest in the default folder. */
  readonly session?: string;
  /** Circuit file, where the one named in the journal has moved. */
  readonly circuit?: string;
}

export interface AtWork {
  readonly session: Session;
  /** Full path of the journal. */
  readonly file: string;
}

export function surroundings({ io }: Context): Surroundings {
  const home = io.env['HOME'] ?? io.env['USERPROFILE'] ?? io.cwd;
  return { platform: io.platform, env: io.env, home };
}

/** Begins a session on a circuit and records its opening. */
export async function beginSession(
  context: Context,
  circuit: FoundCircuit,
  flags: SessionFlags,
): Promise<AtWork> {
  const { io } = context;
  const at = io.now().toISOString();
  const file =
    flags.session === undefined
      ? newSessionFile(surroundings(context), circuit.circuit.id, at)
      : resolve(io.cwd, flags.session);
  const journal = await createJournal(file);
  const session = new Session(circuit.circuit, [], journal, () => io.now().toISOString(), { drawn: circuit });
  await session.record([
    {
      type: 'opened',
      format: 1,
      program: PROGRAM,
      circuit: { id: circuit.circuit.id, hash: circuit.hash, file: circuit.file },
    },
  ]);
  return { session, file };
}

/**
 * Opens a session to record in it.
 * @param exercise true where an attempt at an exercise may be gone on with: only its own conversation may
 */
export async function openSession(context: Context, flags: SessionFlags, exercise = false): Promise<AtWork> {
  const file = await sessionFile(context, flags);
  const { journal, recorded, repairs } = await openJournal(file);
  try {
    if (!exercise) refuseAttempt(recorded, file);
    for (const repair of repairs) context.output.say(describeRepair(repair), 'warning');
    const circuit = await circuitOf(context, recorded, flags);
    refuseUnknown(recorded, circuit.circuit);
    return {
      session: new Session(circuit.circuit, recorded, journal, () => context.io.now().toISOString(), {
        drawn: circuit,
      }),
      file,
    };
  } catch (error) {
    await journal.close();
    throw error;
  }
}

/** Opens a session only to look at it: no lock, nothing is mended or written. */
export async function lookAtSession(context: Context, flags: SessionFlags): Promise<AtWork> {
  const file = await sessionFile(context, flags);
  const { recorded, hash } = await readJournal(file);
  refuseAttempt(recorded, file);
  const circuit = await circuitOf(context, recorded, flags);
  refuseUnknown(recorded, circuit.circuit);
  const recorder = memoryRecorder(hash, recorded.length);
  return {
    session: new Session(circuit.circuit, recorded, recorder, () => context.io.now().toISOString()),
    file,
  };
}

async function sessionFile(context: Context, flags: SessionFlags): Promise<string> {
  if (flags.session !== undefined) return resolve(context.io.cwd, flags.session);
  const newest = (await listSessions(sessionFolder(surroundings(context)), context.io.platform)).at(-1);
  if (newest === undefined)
    throw new Failure(
      'there is no session yet',
      'Begin one: knowngood start CIRCUIT, or name one with --session FILE.',
    );
  return newest;
}

/** The circuit the session stands on: the last corrected one, else the one it was begun on. A changed file keeps the findings, and is said. */
export async function circuitOf(
  context: Context,
  recorded: readonly Recorded[],
  flags: Pick<SessionFlags, 'circuit'>,
): Promise<FoundCircuit> {
  const undone = undoneNumbers(recorded);
  const wanted = recorded
    .filter(({ number }) => !undone.has(number))
    .flatMap(({ event }) => (event.type === 'opened' || event.type === 'redrawn' ? [event.circuit] : []))
    .at(-1);
  if (wanted === undefined)
    throw new Failure(
      'the session does not say on which circuit it was begun',
      'Name it with --circuit FILE.',
    );
  const found = await findCircuit(context, flags.circuit ?? wanted.file).catch((error: unknown) => {
    if (error instanceof Failure && flags.circuit === undefined)
      throw new Failure(
        error.message,
        `If the circuit file has moved: --circuit FILE. ${error.mend}`,
        error.status,
      );
    throw error;
  });
  if (found.circuit.id !== wanted.id)
    throw new Failure(
      `${found.file} is the circuit ${found.circuit.id}; the session is about ${wanted.id}`,
      'Name the right one with --circuit FILE.',
    );
  if (found.hash !== wanted.hash)
    context.output.say(
      'The circuit file has changed since it was last recorded. The findings are kept and judged by the new drawing; to record that it was corrected, type: redraw and a few words.',
      'warning',
    );
  return found;
}

/** While an attempt at an exercise is open, it gets the help that the exercise allows and no other. */
function refuseAttempt(recorded: readonly Recorded[], file: string): void {
  const begun = recorded.findLast(({ event }) => event.type === 'exercise')?.event;
  if (begun?.type !== 'exercise' || recorded.some(({ event }) => event.type === 'closed')) return;
  throw new Failure(
    `this session is an attempt at the exercise ${begun.id}, and not closed yet`,
    `Go on with it: knowngood resume --session "${file}"`,
  );
}

/** A session that speaks of what the drawing no longer has cannot be reasoned about. */
function refuseUnknown(recorded: readonly Recorded[], circuit: Circuit): void {
  const undone = undoneNumbers(recorded);
  for (const { number, event } of recorded) {
    const unknown = unknownId(event, circuit);
    if (unknown !== undefined && !undone.has(number))
      throw new Failure(
        `event ${number} speaks of something the drawing no longer has: ${unknown.message}`,
        `${unknown.mend} Nothing of the session is lost; put the name back in the circuit file, or name another with --circuit FILE.`,
      );
  }
}
