/**
 * Every name a person may type for a circuit, without regard to case, brought to the file's own spelling.
 * Unknown names get the nearest known one, because a slip in `X3.1h` is the commonest mistake at the bench.
 */
import { loadsOf, terminalsOf, type Circuit, type Part } from '../circuit/circuit.js';
import { FAILING, type LoadKind } from './parse-sight.js';

/** Lower-case name to the file's spelling. */
export type NameList = ReadonlyMap<string, string>;

export interface Names {
  readonly controls: NameList;
  readonly parts: NameList;
  readonly wires: NameList;
  readonly connectors: NameList;
  readonly loads: NameList;
  /** Everywhere a probe can go. */
  readonly points: NameList;
  /** Connector pins without a side: `X3.1`. */
  readonly pins: NameList;
}

const BATTERY_POINTS = ['bat+', 'bat-', 'body'];
const POINT_WORDS: readonly (readonly [string, string])[] = [
  ['b+', 'bat+'],
  ['b-', 'bat-'],
  ['battery+', 'bat+'],
  ['battery-', 'bat-'],
  ['gnd', 'body'],
  ['ground', 'body'],
  ['chassis', 'body'],
];

export function namesOf(circuit: Circuit): Names {
  const parts = [...circuit.parts.values()];
  const connectors = parts.filter((part) => part.type === 'connector');
  const pins = connectors.flatMap((part) => part.pins.map((pin) => `${part.id}.${pin}`));
  const points = listOf([...BATTERY_POINTS, ...parts.flatMap(pointsOf)]);
  // A part or terminal of that very name goes before the everyday word.
  for (const [word, point] of POINT_WORDS) if (!points.has(word)) points.set(word, point);
  return {
    controls: listOf(circuit.controls.keys()),
    parts: listOf(circuit.parts.keys()),
    wires: listOf(circuit.wires.map((wire) => wire.id)),
    connectors: listOf(connectors.map((part) => part.id)),
    loads: listOf(parts.flatMap((part) => loadsOf(part))),
    points,
    pins: listOf(pins),
  };
}

/** The points of one part: harness and item side of each terminal, both sides of each pin, or the stud itself. */
export function pointsOf(part: Part): readonly string[] {
  if (part.type === 'connector')
    return part.pins.flatMap((pin) => [`${part.id}.${pin}h`, `${part.id}.${pin}c`]);
  if (part.type === 'ground' || part.type === 'splice') return [part.id];
  return terminalsOf(part).flatMap((terminal) => [`${part.id}.${terminal}`, `${part.id}.${terminal}i`]);
}

/** Kind of the load `H1` or `H1.54`; undefined when it is no load. */
export function loadKind(circuit: Circuit, load: string): LoadKind | undefined {
  const type = circuit.parts.get(load.split('.')[0]!)?.type;
  return type !== undefined && type in FAILING ? (type as LoadKind) : undefined;
}

/** The known name closest to the word, if it is close enough to be a slip: at most a third of its letters wrong. */
export function nearest(word: string, known: Iterable<string>): string | undefined {
  let best: string | undefined;
  let least = Math.max(1, Math.floor(word.length / 3)) + 1;
  for (const name of known) {
    const wrong = slips(word.toLowerCase(), name.toLowerCase());
    if (wrong < least) [best, least] = [name, wrong];
  }
  return best;
}

/** Letters inserted, left out, changed or swapped with their neighbour (optimal string alignment distance). */
function slips(a: string, b: string): number {
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min(above[j]! + 1, row[j - 1]! + 1, above[j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, before[j - 2]! + 1);
      row.push(least);
    }
    before = above;
    above = row;
  }
  return above[b.length]!;
}

function listOf(names: Iterable<string>): Map<string, string> {
  return new Map([...names].map((name) => [name.toLowerCase(), name]));
}
