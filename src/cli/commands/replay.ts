/** `replay FILE...`: sessions as tests. 0 all hold, 1 something differs, 2 something could not be run. */
import { writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { systemCode } from '../../files/journal-error.js';
import { visible } from '../../circuit/visible.js';
import { totalsOf, type Replay } from '../../report/replay-data.js';
import { replayJunit } from '../../report/replay-junit.js';
import { tapHead, tapLine } from '../../report/replay-tap.js';
import { replayDetails, replayHead, totalsWords } from '../../report/replay-text.js';
import type { CommandResult, Context } from '../context.js';
import { Failure } from '../failure.js';
import { STATUS } from '../io.js';
import { JSON_SCHEMA, jsonText } from '../output.js';
import { collect, isFolder, type Collected } from '../replay/collect.js';
import { formatOf, inShard, jobsOf, shardOf, type Format } from '../replay/options.js';
import { Progress } from '../replay/progress.js';
import { replayAll } from '../replay/replay-all.js';

export interface ReplayFlags {
  readonly json?: boolean;
  readonly format?: string;
  /** File for the chosen form; the text still goes to stdout. */
  readonly output?: string;
  readonly jobs?: string;
  readonly shard?: string;
  readonly circuits?: string;
  readonly before?: string;
  readonly update?: boolean;
  readonly strict?: boolean;
}

export async function replay(context: Context, names: readonly string[], flags: ReplayFlags): CommandResult {
  const { io, output } = context;
  const format = formatOf(flags.format, flags.json === true);
  const shard = shardOf(flags.shard);
  jobsOf(flags.jobs, 0);
  if (names.includes(''))
    throw new Failure(
      'a name is empty',
      'Name sessions or folders: replay sessions. The folder you are in is a dot.',
    );
  const all = await collect(io.cwd, names);
  const tasks = inShard(all.tasks, shard);
  sayCollected(context, all);
  const options = {
    cwd: io.cwd,
    circuits: await folder(io.cwd, flags.circuits, '--circuits'),
    before: await folder(io.cwd, flags.before, '--before'),
    ...(flags.update ? { update: io.now().toISOString() } : {}),
    strict: flags.strict === true,
  };
  const live: Format | undefined = flags.output === undefined ? format : 'text';
  // Before the work: a name that cannot be written must not show after an hour, nor an old report be taken for this one.
  if (flags.output !== undefined) await writeOut(io.cwd, flags.output, '');
  const progress = new Progress(io, tasks.length);
  const replays: Replay[] = [];
  if (live === 'tap') output.result(tapHead(tasks.length));
  const count = (one: Replay): void => progress.step(one.outcome === 'holds');
  for await (const one of replayAll(tasks, options, jobsOf(flags.jobs, tasks.length), count)) {
    replays.push(one);
    if (live === 'text') progress.around(() => printText(context, one));
    if (live === 'tap') progress.around(() => output.result(tapLine(one, replays.length)));
  }
  progress.wipe();
  const totals = totalsOf(replays);
  if (live === 'text') {
    const of =
      shard === undefined ? '' : ` (share ${shard.number} of ${shard.of}, ${all.tasks.length} in all)`;
    output.result(`${totalsWords(totals)}${of}`);
  } else if (live !== 'tap') io.stdout.write(written(format, replays, all));
  if (flags.output !== undefined) await writeOut(io.cwd, flags.output, written(format, replays, all));
  if (totals.failed > 0 || all.empty.length > 0) return STATUS.cannotRun;
  return totals.differs > 0 ? STATUS.negative : STATUS.ok;
}

function printText({ output }: Context, one: Replay): void {
  output.result(replayHead(one), one.outcome === 'holds' ? 'good' : 'error');
  for (const line of replayDetails(one)) output.result(`    ${line.replaceAll('\n', '\n    ')}`);
}

function written(format: Format, replays: readonly Replay[], { skipped }: Collected): string {
  switch (format) {
    case 'json':
      return `${jsonText({ schema: JSON_SCHEMA, kind: 'knowngood replay', ...totalsOf(replays), sessions: replays, skipped })}\n`;
    case 'junit':
      return replayJunit(replays);
    case 'tap':
      return [tapHead(replays.length), ...replays.map((one, index) => tapLine(one, index + 1)), ''].join(
        '\n',
      );
    case 'text':
      return visible(
        [
          ...replays.flatMap((one) => [
            replayHead(one),
            ...replayDetails(one).map((line) => `    ${line.replaceAll('\n', '\n    ')}`),
          ]),
          totalsWords(totalsOf(replays)),
          '',
        ].join('\n'),
        { lines: true },
      );
  }
}

function sayCollected({ output }: Context, { skipped, empty }: Collected): void {
  for (const name of empty)
    output.complain(
      `${name} holds no session`,
      'Sessions are journals (.journal) and YAML files that begin with session: 1.',
    );
  if (skipped.length > 0)
    output.say(
      `${skipped.length === 1 ? '1 YAML file is' : `${skipped.length} YAML files are`} no session and left out`,
      'faint',
    );
}

async function folder(cwd: string, name: string | undefined, flag: string): Promise<string | undefined> {
  if (name === undefined) return undefined;
  const path = resolve(cwd, name);
  if (!(await isFolder(path)))
    throw new Failure(`${flag} ${name}: there is no such folder`, 'Check its name.');
  return path;
}

async function writeOut(cwd: string, name: string, text: string): Promise<void> {
  await writeFile(resolve(cwd, name), text).catch((error: unknown) => {
    throw new Failure(
      `${name} could not be written (${systemCode(error) || 'unknown reason'})`,
      'Check that its folder exists, may be written to and has room.',
      undefined,
      { cause: error },
    );
  });
}
