/** Which sessions are meant: files as named, and what sessions there are in named folders, in an order that never changes. */
import { open, readdir, stat } from 'node:fs/promises';
import { basename, join, relative, resolve, sep } from 'node:path';
import { JOURNAL_ENDING } from '../../files/places.js';

export interface Task {
  /** Full path. */
  readonly path: string;
  /** As the person sees it. */
  readonly shown: string;
  /** Names the circuit as the file does, so that sessions on one circuit can be reasoned one after the other. */
  readonly circuit: string;
}

export interface Collected {
  readonly tasks: readonly Task[];
  /** YAML files in the folders that are no sessions, as the person sees them. */
  readonly skipped: readonly string[];
  /** Named folders without a session in them. */
  readonly empty: readonly string[];
}

export type YamlKind = 'session' | 'circuit' | 'exercise' | 'other';

/** Bytes in which the first entries of a file stand, after its comments. */
const HEAD = 16_384;

export async function collect(cwd: string, names: readonly string[]): Promise<Collected> {
  const tasks = new Map<string, Task>();
  const skipped: string[] = [];
  const empty: string[] = [];
  const add = async (path: string, shown: string): Promise<void> => {
    if (!tasks.has(path)) tasks.set(path, { path, shown, circuit: circuitNamed(path, await headOf(path)) });
  };
  for (const name of names) {
    const path = resolve(cwd, name);
    if (!(await isFolder(path))) {
      await add(path, name);
      continue;
    }
    let found = 0;
    for (const file of await filesIn(path)) {
      const shown = `${name.replace(/[\\/]+$/, '')}/${relative(path, file).split(sep).join('/')}`;
      const session = file.endsWith(JOURNAL_ENDING) || (await yamlKind(file)) === 'session';
      if (session) await add(file, shown);
      else skipped.push(shown);
      if (session) found++;
    }
    if (found === 0) empty.push(name);
  }
  return { tasks: [...tasks.values()], skipped, empty };
}

/** What a YAML file says it is, by its entries without indent. A file that cannot be read is `other`. */
export async function yamlKind(path: string): Promise<YamlKind> {
  const head = await headOf(path);
  const has = (key: string): boolean =>
    new RegExp(`^(?:\\uFEFF|\\{\\s*)?["']?${key}["']?\\s*:`, 'm').test(head);
  if (has('session')) return 'session';
  if (has('exercise')) return 'exercise';
  return has('circuit') && (has('parts') || has('nominal')) ? 'circuit' : 'other';
}

/** Journals and YAML files in the folder and those below it, sorted by name; hidden folders and links to folders are left out. */
async function filesIn(folder: string): Promise<readonly string[]> {
  const found: string[] = [];
  const entries = await readdir(folder, { withFileTypes: true });
  for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const path = join(folder, entry.name);
    if (entry.name.startsWith('.') || entry.name === 'node_modules') continue;
    if (entry.isDirectory()) found.push(...(await filesIn(path)));
    else if (/\.(ya?ml|journal)$/i.test(entry.name) && (entry.isFile() || !(await isFolder(path))))
      found.push(path);
  }
  return found;
}

function circuitNamed(path: string, head: string): string {
  const named = path.endsWith(JOURNAL_ENDING)
    ? /"circuit":\{[^}]*"file":"((?:[^"\\]|\\.)*)"/.exec(head)
    : /^circuit\s*:\s*(.+)$/m.exec(head);
  return basename((named?.[1] ?? '').replaceAll('\\', '/').trim());
}

/** The beginning of a file; nothing where it cannot be read. */
export async function headOf(path: string): Promise<string> {
  if (!(await isOrdinary(path))) return '';
  const file = await open(path, 'r').catch(() => undefined);
  if (file === undefined) return '';
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(HEAD), 0, HEAD, 0);
    return buffer.toString('utf8', 0, bytesRead);
  } catch {
    return '';
  } finally {
    await file.close();
  }
}

export async function isFolder(path: string): Promise<boolean> {
  return (await stat(path).catch(() => undefined))?.isDirectory() === true;
}

async function isOrdinary(path: string): Promise<boolean> {
  return (await stat(path).catch(() => undefined))?.isFile() === true;
}
