/** The words after `replay`, checked: each mistake is named before anything is run. */
import { availableParallelism } from 'node:os';
import { didYouMean } from '../../circuit/nearest.js';
import { Failure } from '../failure.js';

export const FORMATS = ['text', 'json', 'junit', 'tap'] as const;
export type Format = (typeof FORMATS)[number];

const MOST_JOBS = 64;
const MOST_SHARDS = 10_000;
/** With fewer sessions a thread takes longer to begin than it saves. */
const WORTH_A_THREAD = 6;

export function formatOf(typed: string | undefined, json: boolean): Format {
  const format = FORMATS.find((known) => known === (typed ?? (json ? 'json' : 'text')).toLowerCase());
  if (format === undefined)
    throw new Failure(`There is no format "${typed}"`, didYouMean(typed!, FORMATS, 'format'));
  if (json && format !== 'json')
    throw new Failure(`--json and --format ${format} exclude each other`, 'Leave one of them out.');
  return format;
}

/** Left out: as many as there are processors, where there is enough to do. */
export function jobsOf(typed: string | undefined, sessions: number): number {
  if (typed === undefined)
    return Math.max(1, Math.min(availableParallelism(), Math.floor(sessions / WORTH_A_THREAD)));
  const jobs = Number(typed);
  if (!/^\d+$/.test(typed) || jobs < 1 || jobs > MOST_JOBS)
    throw new Failure(`"${typed}" is no number of threads`, `Give 1 to ${MOST_JOBS}: --jobs 2`);
  return jobs;
}

export interface Shard {
  readonly number: number;
  readonly of: number;
}

export function shardOf(typed: string | undefined): Shard | undefined {
  if (typed === undefined) return undefined;
  const [, number, of] = /^(\d+)\/(\d+)$/.exec(typed.trim()) ?? [];
  const shard = { number: Number(number), of: Number(of) };
  if (of === undefined || shard.of < 1 || shard.of > MOST_SHARDS)
    throw new Failure(
      `"${typed}" is no share of the sessions`,
      'Give which of how many, the first is 1: --shard 1/4',
    );
  if (shard.number < 1 || shard.number > shard.of)
    throw new Failure(
      `there is no share ${shard.number} of ${shard.of}`,
      `Give 1/${shard.of} to ${shard.of}/${shard.of}; together they are all sessions.`,
    );
  return shard;
}

/** Every n-th, so that what stands beside each other, and is alike, is spread. */
export function inShard<T>(all: readonly T[], shard: Shard | undefined): readonly T[] {
  return shard === undefined ? all : all.filter((_, index) => index % shard.of === shard.number - 1);
}
