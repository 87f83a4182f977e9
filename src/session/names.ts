/**
 * Every name a person may type for a circuit, without regard to case, brought to the file's own spelling.
 * Unknown names get the nearest known one, because a slip in `X3.1h` is the commonest mistake at the bench.
 */
import { loadsOf, type Circuit, type PartType } from '../circuit/circuit.js';
import { framesOf, pointsOf } from '../circuit/points.js';
import type { LoadKind } from '../network/network.js';

/** Lower-case name, or another word for it, to the file's spelling. */
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
  const points = listOf([...BATTERY_POINTS, ...framesOf(circuit.parts), ...parts.flatMap(pointsOf)]);
  // A part or terminal of that very name goes before the everyday word.
  for (const [word, point] of POINT_WORDS) if (!points.has(word)) points.set(word, point);
  return {
    controls: controlNames(circuit.controls, listOf(circuit.parts.keys())),
    parts: listOf(circuit.parts.keys()),
    wires: listOf(circuit.wires.map((wire) => wire.id)),
    connectors: listOf(connectors.map((part) => part.id)),
    loads: listOf(parts.flatMap((part) => loadsOf(part))),
    points,
    pins: listOf(pins),
  };
}

/** Part types that are watched or listened to, by what a person says of them. */
const KINDS: ReadonlyMap<PartType, LoadKind> = new Map<PartType, LoadKind>([
  ['lamp', 'lamp'],
  ['LED lamp', 'LED'],
  ['horn', 'horn'],
  ['buzzer', 'horn'],
  ['motor', 'motor'],
  ['relay', 'relay'],
  ['solenoid', 'solenoid'],
  ['heater', 'heater'],
  ['load', 'load'],
]);

/** Kind of the load `H1` or `H1.54`; undefined when it is no load. */
export function loadKind(circuit: Circuit, load: string): LoadKind | undefined {
  const part = circuit.parts.get(load.split('.')[0]!);
  return part && KINDS.get(part.type);
}

/** A control goes by one of its words too where no other control has that word: `lever front` for the only lever. */
function controlNames(controls: Circuit['controls'], parts: NameList): Map<string, string> {
  const ids = [...controls.keys()];
  const names = listOf(ids);
  const positions = new Set(
    [...controls.values()].flatMap((one) => one.positions.map((p) => p.toLowerCase())),
  );
  const wordsOf = (id: string) => id.toLowerCase().split(' ');
  for (const id of ids)
    for (const word of new Set(wordsOf(id))) {
      const sharers = ids.filter((other) => wordsOf(other).includes(word));
      if (sharers.length === 1 && !parts.has(word) && !positions.has(word)) names.set(word, id);
    }
  return names;
}

function listOf(names: Iterable<string>): Map<string, string> {
  return new Map([...names].map((name) => [name.toLowerCase(), name]));
}
