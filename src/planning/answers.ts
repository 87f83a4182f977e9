/**
 * The answers a test may get, each as a reading that can be put on record: a word, or for a meter everything between two figures.
 * The answers of a meter take in every figure there is, so that whatever is read leads on.
 */
import { WORDS } from '../diagnosis/sights.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Reading, Typed } from '../session/events.js';
import { outcomeHeaps, whenWords, type Member } from './outcome-words.js';
import { fewPiles, mostly, weightOf, type Pile } from './piles.js';
import { NO_ANSWER } from './reads.js';

export interface Answer {
  /** As a person is told: "lit", "11.8 to 12.6 V". A figure between two of them belongs to the nearer one. */
  readonly when: string;
  /** Stands for every reading that belongs here. */
  readonly reading: Reading;
  /** The versions that would read so, by what they give at nominal values. */
  readonly pile: Pile;
}

/** More ohms than any meter shows or leak has: the far end of the scale. */
const ENDLESS_OHMS = 1e12;
const OL_OHMS = 1e7;
/** More than any clamp on a vehicle shows, amperes. */
const ENDLESS_AMPS = 10_000;

/**
 * @param members what each version would read, of every version that is suspected
 * @param rare share of their weight below which an answer is hardly worth a line
 * @returns from low to high, or from good to dead
 */
export function answersOf(
  bench: Workbench,
  reading: Reading,
  members: readonly Member[],
  rare: number,
): readonly Answer[] {
  const volts = 2 * bench.circuit.nominalVolts;
  switch (reading.kind) {
    case 'load': {
      const words = WORDS[bench.network.loads.get(reading.load)!.kind];
      return spoken(members, words, (value) => ({ ...reading, value }));
    }
    case 'test lamp':
    case 'fuse lamp':
      return spoken(members, ['lit', 'dim', 'off'] as const, (value) => ({ ...reading, value }));
    case 'scan': {
      const scan = bench.network.scans?.get(`${reading.module}.${reading.input}`);
      const silent = members.filter(({ figure }) => figure === NO_ANSWER);
      const heard = members.filter(({ figure }) => figure !== NO_ANSWER);
      const none: Answer = { when: 'no answer', reading: { ...reading, value: 'no answer' }, pile: silent };
      const told =
        scan === undefined || scan.reads === 'volts'
          ? measured(bench, reading, heard, rare, [-volts, volts], (value) => ({ ...reading, value }))
          : spokenAt(
              (scan.lowVolts + scan.highVolts) / 2,
              heard,
              [scan.reads.high, scan.reads.low],
              (value) => ({
                ...reading,
                value,
              }),
            );
      return silent.length > 0 ? [...told, none] : told;
    }
    case 'volts':
      return measured(bench, reading, members, rare, [-volts, volts], (value) => ({ ...reading, value }));
    case 'ohms':
      return measured(bench, reading, members, rare, [0, ENDLESS_OHMS], (value, low) => ({
        ...reading,
        value: low >= OL_OHMS ? 'OL' : value,
      }));
    case 'clamp':
    case 'amps':
      return measured(bench, reading, members, rare, [0, ENDLESS_AMPS], (value) => ({ ...reading, value }));
    default:
      return [];
  }
}

/** Shares of rated volts at which one word gives way to the next, for two and for three words; well inside what either may mean. */
const EDGES: Readonly<Record<number, readonly number[]>> = { 2: [0.44], 3: [0.58, 0.3] };

/** @param words from good to dead; one that no version gives, but that somebody might still say, is there with an empty pile */
function spoken<W extends string>(members: Pile, words: readonly W[], make: (word: W) => Reading): Answer[] {
  const edges = EDGES[words.length] ?? [];
  return words.flatMap((word, i) => {
    const pile = members.filter(
      ({ figure }) => figure < (edges[i - 1] ?? Infinity) && figure >= (edges[i] ?? -Infinity),
    );
    const sayable = members.some(({ span: [from, to] }) => from < i + 1 && to > i);
    return pile.length > 0 || sayable ? [{ when: word, reading: make(word), pile }] : [];
  });
}

function spokenAt(
  volts: number,
  members: Pile,
  [high, low]: readonly [string, string],
  make: (word: string) => Reading,
): Answer[] {
  const piles = [
    [high, members.filter(({ figure }) => figure >= volts)],
    [low, members.filter(({ figure }) => figure < volts)],
  ] as const;
  return piles.flatMap(([word, pile]) =>
    pile.length > 0 ? [{ when: word, reading: make(word), pile }] : [],
  );
}

/** @param ends what no figure of this kind lies beyond */
function measured(
  bench: Workbench,
  reading: Reading,
  members: Pile,
  rare: number,
  [start, end]: readonly [number, number],
  make: (value: Typed, low: number) => Reading,
): Answer[] {
  const ranges = fewPiles(outcomeHeaps(members), rare).map(mostly);
  const cuts = ranges.slice(1).map(([low], i) => between(reading, ranges[i]![1], low));
  return ranges.flatMap(([low, high], i) => {
    const [from, to] = [cuts[i - 1] ?? start, cuts[i] ?? end];
    const pile = members.filter(
      ({ figure }) => (i === 0 || figure >= from) && (i === cuts.length || figure < to),
    );
    if (pile.length === 0) return [];
    const value = { value: (from + to) / 2, step: (to - from) / 2 };
    return [{ when: whenWords(bench, reading, [low, high]), reading: make(value, low), pile }];
  });
}

/** Halfway; for ohms, which spread over decades, halfway in their logarithms. */
function between({ kind }: Reading, high: number, low: number): number {
  return kind === 'ohms' ? Math.sqrt(Math.max(high, 0.1) * Math.min(low, OL_OHMS)) : (high + low) / 2;
}

/** Of the weight of all answers, 0 to 1. */
export function chanceOf({ pile }: Answer, answers: readonly Answer[]): number {
  return weightOf(pile) / answers.reduce((sum, answer) => sum + weightOf(answer.pile), 0);
}

/** Two answers of a meter, next to each other, as one; undefined for words. */
export function asOne(bench: Workbench, below: Answer, above: Answer): Answer | undefined {
  const [low, high] = [spanOf(below.reading), spanOf(above.reading)];
  if (low === undefined || high === undefined) return undefined;
  const pile = [...below.pile, ...above.pile];
  const value = { value: (low[0] + high[1]) / 2, step: (high[1] - low[0]) / 2 };
  return {
    when: whenWords(bench, below.reading, mostly(pile)),
    reading: { ...below.reading, value } as Reading,
    pile,
  };
}

function spanOf(reading: Reading): readonly [number, number] | undefined {
  if (reading.kind === 'ohms' && reading.value === 'OL') return [OL_OHMS, ENDLESS_OHMS];
  if (typeof reading.value !== 'object') return undefined;
  return [reading.value.value - reading.value.step, reading.value.value + reading.value.step];
}
