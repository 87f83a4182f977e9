/** Runs the whole program in this process: in-memory streams, a folder of its own, a clock that stands still. */
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PassThrough, Readable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { main } from '../../src/cli/main.js';
import { Interrupted, type Asker } from '../../src/cli/talk/asker.js';

export const REVERSING = fileURLToPath(new URL('../../circuits/reversing-lamps.yaml', import.meta.url));
export const EXAMPLES = fileURLToPath(new URL('../../examples/', import.meta.url));

export interface Ran {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
}

export interface Bench {
  readonly folder: string;
  run(
    argv: readonly string[],
    more?: { stdin?: string; asker?: Asker; env?: Record<string, string> },
  ): Promise<Ran>;
  file(name: string, text: string): Promise<string>;
  remove(): Promise<void>;
}

export async function bench(): Promise<Bench> {
  const folder = await mkdtemp(join(tmpdir(), 'knowngood-'));
  return {
    folder,
    async run(argv, { stdin = '', asker, env = {} } = {}) {
      const [stdout, stderr] = [collector(), collector()];
      const status = await main(
        argv,
        {
          stdin: Readable.from([stdin]),
          stdout: stdout.stream,
          stderr: stderr.stream,
          env: { HOME: folder, XDG_STATE_HOME: join(folder, 'state'), LANG: 'C.UTF-8', ...env },
          cwd: folder,
          now: () => new Date('2024-05-06T10:00:00Z'),
          platform: 'linux',
          isTTY: { stdin: asker !== undefined, stdout: false, stderr: false },
        },
        asker === undefined ? {} : { asker: () => Promise.resolve(asker) },
      );
      return { status, stdout: stdout.text(), stderr: stderr.text() };
    },
    async file(name, text) {
      const path = join(folder, name);
      await writeFile(path, text);
      return path;
    },
    remove: () => rm(folder, { recursive: true, force: true }),
  };
}

/** A person who types these lines, one a question; `^C` is Ctrl-C. Fails when asked more. */
export function person(
  lines: readonly string[],
): Asker & { readonly questions: string[]; readonly left: number } {
  const questions: string[] = [];
  let next = 0;
  return {
    person: true,
    questions,
    get left() {
      return lines.length - next;
    },
    ask(message) {
      questions.push(message);
      const line = lines[next++];
      if (line === undefined) return Promise.reject(new Error(`asked more than expected: ${message}`));
      return line === '^C' ? Promise.reject(new Interrupted('interrupted')) : Promise.resolve(line);
    },
  };
}

function collector(): { stream: PassThrough; text: () => string } {
  const stream = new PassThrough();
  const pieces: Buffer[] = [];
  stream.on('data', (piece: Buffer) => pieces.push(piece));
  return { stream, text: () => Buffer.concat(pieces).toString('utf8') };
}

/** What a failing test needs to be understood. */
export function shown(ran: Ran): string {
  return `status ${ran.status}\n--- stdout\n${ran.stdout}\n--- stderr\n${ran.stderr}`;
}
