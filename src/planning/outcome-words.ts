/** What each outcome of a test would look like, and what it would leave. */
import { WORDS } from '../diagnosis/sights.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Reading } from '../session/events.js';
import type { Likely } from './likely.js';
import type { Span } from './outcome-classes.js';
import { NO_ANSWER } from './reads.js';

/** A version with the figure it would give and where on the axis of classes that lies. */
export interface Member {
  readonly likely: Likely;
  readonly figure: number;
  readonly span: Span;
  /** It may read either way whatever was read before: behind a breaker that opens and closes. */
  readonly unsure?: boolean;
}

export interface OutcomeWords {
  readonly when: string;
  readonly means: string;
  readonly chance: number;
}

/** Outcomes less likely than this are not spelled out. */
const RARE = 0.01;
const MOST_NAMES = 6;
const MOST_RULED_OUT = 4;
/** Part of the versions that one word must stand for. */
const FEW_SAY = 0.25;
/** Ohms from here on show as OL. */
const OL_OHMS = 1e7;

/** Outcomes from low to high: versions whose bands hang together are one, neighbours that leave the same names too. */
export function outcomesOf(bench: Workbench, reading: Reading, members: readonly Member[]): OutcomeWords[] {
  const total = members.reduce((sum, { likely }) => sum + likely.weight, 0);
  const unsure = members.filter((member) => member.unsure === true);
  const sure =
    unsure.length === members.length ? members : members.filter((member) => !unsure.includes(member));
  const either = sure === members ? [] : unsure;
  const outcomes = outcomeHeaps(sure)
    .map((heap) => ({
      when: whenWords(
        bench,
        reading,
        heap.map(({ figure }) => figure),
      ),
      means: [meansWords(heap), ...ruledOutWords(heap, sure)].join('; '),
      chance: heap.reduce((sum, { likely }) => sum + likely.weight, 0) / total,
    }))
    .filter(({ chance }) => chance >= RARE);
  const chance = either.reduce((sum, { likely }) => sum + likely.weight, 0) / total;
  if (chance < RARE) return outcomes;
  return [
    ...outcomes,
    { when: 'any reading', means: `${meansWords(either)}: a breaker may be open or closed`, chance },
  ];
}

/** The same as the versions themselves, none left out. */
export function outcomeHeaps(members: readonly Member[]): Member[][] {
  return mergeAlike(heaps(members));
}

/** Cut where the middle of one band lies beyond the band before it. */
function heaps(members: readonly Member[]): Member[][] {
  const sorted = [...members].sort((a, b) => middle(a.span) - middle(b.span));
  const list: Member[][] = [];
  let reach = -Infinity;
  for (const member of sorted) {
    if (member.span[0] >= reach - 1e-9 || list.length === 0) {
      list.push([]);
      reach = member.span[1];
    }
    list.at(-1)!.push(member);
  }
  return list;
}

function middle([from, to]: Span): number {
  return (from + to) / 2;
}

function mergeAlike(list: readonly Member[][]): Member[][] {
  const merged: Member[][] = [];
  for (const members of list) {
    const last = merged.at(-1);
    if (last !== undefined && meansWords(last) === meansWords(members)) last.push(...members);
    else merged.push([...members]);
  }
  return merged;
}

/** How a heap of figures of this reading is told. */
export function whenWords(bench: Workbench, reading: Reading, figures: readonly number[]): string {
  const [low, high] = [Math.min(...figures), Math.max(...figures)];
  switch (reading.kind) {
    case 'load':
      return sights(WORDS[bench.network.loads.get(reading.load)!.kind], figures);
    case 'test lamp':
    case 'fuse lamp':
      return sights(['lit', 'dim', 'off'], figures);
    case 'ohms':
    case 'continuity':
      if (low >= OL_OHMS) return 'OL';
      return high >= OL_OHMS ? `${rounded(low)} ohm up to OL` : range(low, high, 'ohm');
    case 'amps':
    case 'clamp':
      return range(low, high, 'A');
    case 'scan': {
      if (low === NO_ANSWER) return 'no answer';
      const scan = bench.network.scans?.get(`${reading.module}.${reading.input}`);
      if (scan === undefined || scan.reads === 'volts') return range(low, high, 'V');
      return (low + high) / 2 >= (scan.lowVolts + scan.highVolts) / 2 ? scan.reads.high : scan.reads.low;
    }
    default:
      return range(low, high, 'V');
  }
}

/** The words for these shares of the rated volts, but for those that few of them say: "runs or slow"; words run from good to dead. */
function sights(words: readonly string[], shares: readonly number[]): string {
  const said = shares.map((share) => sight(words, share));
  return words
    .filter((word) => said.filter((some) => some.includes(word)).length > FEW_SAY * shares.length)
    .join(' or ');
}

function sight(words: readonly string[], share: number): readonly string[] {
  if (share > 0.58) return [words[0]!];
  if (share < 0.3) return [words.at(-1)!];
  return words.length > 2 ? [words[1]!] : words;
}

function range(low: number, high: number, unit: string): string {
  const [from, to] = [rounded(low), rounded(high)];
  return from === to ? `about ${from} ${unit}` : `${from} to ${to} ${unit}`;
}

function rounded(value: number): string {
  const size = Math.abs(value);
  if (size >= 1e6) return `${(value / 1e6).toFixed(1)} M`;
  if (size >= 1e4) return `${(value / 1e3).toFixed(0)} k`;
  return (size < 100 ? value.toFixed(1) : value.toFixed(0)).replace(/^-0\.0$/, '0.0');
}

function meansWords(members: readonly Member[]): string {
  const names = new Map<string, number>();
  for (const { likely } of members) names.set(likely.name, (names.get(likely.name) ?? 0) + likely.weight);
  const ranked = [...names].sort((a, b) => b[1] - a[1]).map(([name]) => name);
  const shown = ranked.slice(0, MOST_NAMES).join(', ');
  const more = ranked.length > MOST_NAMES ? ` and ${ranked.length - MOST_NAMES} more` : '';
  return `leaves ${shown}${more}`;
}

/** What would hardly read so, the likeliest first; nothing where all would. A forecast: only the reading itself rules out. */
function ruledOutWords(heap: readonly Member[], all: readonly Member[]): string[] {
  const left = new Set(heap.map(({ likely }) => likely.name));
  const names = new Map<string, number>();
  for (const { likely } of all)
    if (!left.has(likely.name)) names.set(likely.name, (names.get(likely.name) ?? 0) + likely.weight);
  if (names.size === 0) return [];
  const ranked = [...names].sort((a, b) => b[1] - a[1]).map(([name]) => name);
  const more = ranked.length > MOST_RULED_OUT ? ` and ${ranked.length - MOST_RULED_OUT} more` : '';
  return [`speaks against ${ranked.slice(0, MOST_RULED_OUT).join(', ')}${more}`];
}

/** Moving a place with the eyes on the load: it changes, or it does not. */
export function wiggleOutcomes(members: readonly Member[], at: string): OutcomeWords[] {
  const total = members.reduce((sum, { likely }) => sum + likely.weight, 0);
  const moved = members.filter(({ span }) => span[0] === 0);
  const chance = moved.reduce((sum, { likely }) => sum + likely.weight, 0) / (2 * total);
  return [
    { when: 'it comes or goes', means: `the fault is at ${at} or moves with it`, chance },
    { when: 'nothing changes', means: `speaks a little against ${at}`, chance: 1 - chance },
  ];
}
