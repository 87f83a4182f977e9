/**
 * Random problems that resemble a vehicle's: parts in a row along a feed, in places that must be opened; breaks and bad contacts with
 * priors over two decades; volts at points on the way, glances at other consumers on the shared feed, tests of a stretch or of one
 * part; a bad contact may read like a healthy line.
 */
import type { Draw } from '../../../src/exercise/random.js';
import { random } from '../../../src/exercise/random.js';
import type { Knowledge, Problem, SequencedTest } from '../../../src/planning/sequence/problem.js';

export interface Size {
  /** Parts, each with a repair of its own. */
  readonly groups: number;
  readonly tests: number;
  readonly places: number;
  /** Share of the parts that may have a bad contact besides a break, 0 to 1. */
  readonly contacts: number;
}

type Shows = SequencedTest['shows'][number];

/** A break or a bad contact at a part. */
interface Bad {
  readonly part: number;
  readonly broken: boolean;
}

export function vehicleProblem(seed: number, { groups, tests, places, contacts }: Size): Problem {
  const draw = random(seed);
  const between = (low: number, high: number) => Math.round(10 * (low + (high - low) * draw())) / 10;
  const bad: Bad[] = [];
  const possibilities: { weight: number; repair: number }[] = [];
  for (let part = 0; part < groups; part++) {
    const weight = 10 ** (2 * draw());
    bad.push({ part, broken: true });
    possibilities.push({ weight, repair: part });
    if (draw() >= contacts) continue;
    bad.push({ part, broken: false });
    possibilities.push({ weight: weight * (0.2 + draw()), repair: part });
  }
  // Neighbours share a place; the first place stands open anyway.
  const placeOf = Array.from({ length: groups }, (_, part) => Math.floor((part * (places + 1)) / groups) - 1);
  const repairs = placeOf.map((place) => {
    const minutes = between(5, 40);
    return place < 0 ? { minutes } : { minutes, place };
  });
  const list = Array.from({ length: tests }, (): SequencedTest => {
    const { minutes, at, show } = testOf(draw, groups, between);
    const needed = at === undefined || placeOf[at]! < 0 ? [] : [placeOf[at]!];
    return { minutes, places: needed, shows: bad.map(show) };
  });
  return {
    possibilities,
    repairs,
    tests: list,
    places: Array.from({ length: places }, () => between(1, 12)),
  };
}

export function atStart({ possibilities }: Problem): Knowledge {
  return { weights: possibilities.map(({ weight }) => weight), open: new Set() };
}

interface Drawn {
  readonly minutes: number;
  /** The part it is done at; undefined: nothing to open. */
  readonly at: number | undefined;
  readonly show: (bad: Bad) => Shows;
}

function testOf(draw: Draw, groups: number, between: (low: number, high: number) => number): Drawn {
  const at = Math.floor(draw() * groups);
  const kind = draw();
  if (kind < 0.4) {
    // Volts behind a part: none behind a break, low or nearly full behind a bad contact.
    const chance = 0.5 + 0.4 * draw();
    return {
      minutes: between(0.5, 2),
      at,
      show: ({ part, broken }) => (part > at ? [[2, 1]] : broken ? [[0, 1]] : overlap(1, 2, chance)),
    };
  }
  if (kind < 0.6) {
    // Another consumer on the feed up to here: a glance.
    const shared = Math.floor(at / 2);
    const chance = 0.3 + 0.4 * draw();
    return {
      minutes: between(0.2, 0.8),
      at: undefined,
      show: ({ part, broken }) => (part > shared ? [[2, 1]] : broken ? [[0, 1]] : overlap(1, 2, chance)),
    };
  }
  if (kind < 0.8) {
    // Volts across a stretch.
    const end = Math.min(groups - 1, at + 1 + Math.floor((draw() * groups) / 2));
    const inside = (part: number) => part >= at && part <= end;
    return {
      minutes: between(1, 3),
      at,
      show: ({ part, broken }) => (inside(part) ? (broken ? [[2, 1]] : overlap(1, 0, 0.7)) : [[0, 1]]),
    };
  }
  // One part alone, taken out.
  return {
    minutes: between(2, 6),
    at,
    show: ({ part, broken }) => (part !== at ? [[0, 1]] : broken ? [[1, 1]] : overlap(1, 0, 0.6)),
  };
}

function overlap(outcome: number, other: number, chance: number): Shows {
  return [
    [outcome, chance],
    [other, 1 - chance],
  ];
}
