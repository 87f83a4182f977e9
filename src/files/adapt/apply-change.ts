/** Makes one change in the text of a circuit file; the result is checked, and a change that breaks the circuit is refused. */
import { wirePointsOf, takesSeveralWires } from '../../circuit/points.js';
import type { Circuit, PointId, Wire } from '../../circuit/circuit.js';
import { CATALOGUE, inCatalogue } from '../../circuit/catalogue.js';
import type { CatalogueEntry } from '../../circuit/catalogue-entry.js';
import { didYouMean } from '../../circuit/nearest.js';
import { written } from '../../circuit/own/sketch.js';
import { parseCircuit, type LoadedCircuit } from '../circuit-file.js';
import { readYaml } from '../yaml-source.js';
import { known, unknownId, type Change } from './change.js';
import { Edits } from './edits.js';

export type Applied =
  /** `words`: what was done. */
  { readonly text: string; readonly words: string } | { readonly wrong: string; readonly mend: string };

type Refusal = { readonly wrong: string; readonly mend: string };

/** @param loaded the circuit before the change, with its text */
export function applyChange({ circuit, source }: LoadedCircuit, change: Change): Applied {
  const yaml = readYaml(source);
  if ('problems' in yaml) throw new Error('a loaded circuit is YAML');
  const edits = new Edits(source, yaml.document.value, yaml.document.ranges);
  const done = make(circuit, edits, change);
  if (typeof done !== 'string') return done;
  const { text } = edits;
  const checked = parseCircuit(text);
  if (!('problems' in checked)) return { text, words: done };
  const [first] = checked.problems;
  return { wrong: first!.message, mend: first!.mend };
}

/** The file's first lines say where it comes from, and it has a short name of its own. */
export function asOwnFile(source: string, id: string, from: string, done: readonly string[]): string {
  const yaml = readYaml(source);
  if ('problems' in yaml) throw new Error('a loaded circuit is YAML');
  const edits = new Edits(source, yaml.document.value, yaml.document.ranges);
  edits.set([], 'circuit', id);
  edits.head(`Adapted from ${from}${done.length === 0 ? '' : `: ${done.join('; ')}`}.`);
  return edits.text;
}

function make(circuit: Circuit, edits: Edits, change: Change): string | Refusal {
  switch (change.do) {
    case 'set':
      return set(circuit, edits, change);
    case 'connector':
      return addConnector(circuit, edits, change);
    case 'lamp':
      return addLamp(circuit, edits, change);
    case 'rename':
      return rename(circuit, edits, change);
  }
}

/** Figures that an entry of the catalogue stands for. */
const FIGURES = ['watts', 'amps', 'ohms', 'volts', 'filaments', 'stall', 'coil', 'pull-in', 'drop-out'];

function set(
  circuit: Circuit,
  edits: Edits,
  { target, key, value }: Extract<Change, { do: 'set' }>,
): string | Refusal {
  const index = circuit.wires.findIndex(({ id }) => id === target);
  const path = target === '' ? [] : index >= 0 ? ['wires', index] : ['parts', target];
  const old = edits.at([...path, key]);
  if (old !== undefined && typeof old !== 'string')
    return {
      wrong: `${key} of ${target} is more than one value`,
      mend: 'change it in the file with a text editor',
    };
  if (key === 'type' || key === 'from' || key === 'to' || /^[[{]/.test(value))
    return {
      wrong: `${key} cannot be set here`,
      mend: 'change it in the file with a text editor, then: knowngood check FILE',
    };
  edits.set(path, key, value);
  if (key === 'catalogue') for (const figure of FIGURES) edits.remove(path, figure);
  return `${key} of ${target === '' ? 'the circuit' : target} ${old === undefined ? `is ${value}` : `was ${old}, is ${value}`}`;
}

function addConnector(
  circuit: Circuit,
  edits: Edits,
  { id, wires, place }: Extract<Change, { do: 'connector' }>,
): string | Refusal {
  const taken = refuseTaken(circuit, id);
  if (taken !== undefined) return taken;
  const own = circuit.wires.flatMap((wire, index) => (wires.includes(wire.id) ? [{ wire, index }] : []));
  const at = placeFor(circuit, edits, place ?? placeOf(circuit, own[0]!.wire.to));
  if (typeof at !== 'string') return at;
  const pins = own.map((_, i) => String(i + 1));
  const name = `connector in ${wires.join(', ')}`;
  edits.append(
    'parts',
    id,
    `{type: connector, name: ${written(name)}, pins: [${pins.join(', ')}], place: ${written(at)}}`,
    `Put into ${wires.join(', ')}`,
  );
  own.forEach(({ wire, index }, i) => {
    const half = `${Number((wire.metres / 2).toPrecision(3))} m`;
    edits.set(['wires', index], 'to', `${id}.${i + 1}h`);
    edits.set(['wires', index], 'length', half);
    edits.appendItem(
      'wires',
      wireText(wire, freeWire(circuit, i), `${id}.${i + 1}c`, wire.to, half),
      `${wire.id} goes on behind ${id}`,
    );
  });
  return `connector ${id} put into ${wires.join(', ')}`;
}

function addLamp(circuit: Circuit, edits: Edits, change: Extract<Change, { do: 'lamp' }>): string | Refusal {
  const { id, figure, name } = change;
  const taken = refuseTaken(circuit, id);
  if (taken !== undefined) return taken;
  const value = figureFor(figure);
  if ('wrong' in value) return value;
  const feed = joinAt(circuit, edits, change.feed, 0);
  if ('wrong' in feed) return feed;
  const ground = joinAt(circuit, edits, change.ground, 1);
  if ('wrong' in ground) return ground;
  const at = placeFor(circuit, edits, change.place ?? placeOf(circuit, change.ground));
  if (typeof at !== 'string') return at;
  const size = Math.max(...circuit.wires.map(({ mm2 }) => (mm2 <= 1 ? mm2 : 0)), 0.75);
  edits.append(
    'parts',
    id,
    `{type: lamp, name: ${written(name ?? `lamp ${id}`)}, ${value.key}: ${written(value.value)}, place: ${written(at)}}`,
    `Added on ${feed.point} and ${ground.point}`,
  );
  const next = feed.wires + ground.wires;
  edits.appendItem(
    'wires',
    `{id: ${freeWire(circuit, next)}, from: ${feed.point}, to: ${id}.1, size: ${size} mm2, length: 0.5 m}`,
    `feed and ground of ${id}`,
  );
  edits.appendItem(
    'wires',
    `{id: ${freeWire(circuit, next + 1)}, from: ${id}.31, to: ${ground.point}, size: ${size} mm2, length: 0.5 m}`,
  );
  return `lamp ${id} added from ${feed.point} to ${ground.point}`;
}

/** Where another wire can end: the point itself, or a new splice in the wire that ends there. */
function joinAt(
  circuit: Circuit,
  edits: Edits,
  typed: string,
  before: number,
): { readonly point: PointId; readonly wires: number } | Refusal {
  const lower = typed.toLowerCase();
  const parts = [...circuit.parts.values()];
  const part = parts.find((one) => wirePointsOf(one).some((point) => point.toLowerCase() === lower));
  if (part === undefined) {
    const points = parts.flatMap((one) => wirePointsOf(one));
    return {
      wrong: `there is no point "${typed}" at which a wire can end`,
      mend: didYouMean(typed, points, 'point'),
    };
  }
  const point = wirePointsOf(part).find((one) => one.toLowerCase() === lower)!;
  if (takesSeveralWires(part)) return { point, wires: 0 };
  const index = circuit.wires.findIndex(({ from, to }) => from === point || to === point);
  const wire = circuit.wires[index];
  if (wire === undefined)
    return {
      wrong: `no wire ends at ${point}`,
      mend: 'name a splice, a ground, or a terminal with a wire on it',
    };
  const splice = freePart(circuit, 'SP', before);
  edits.append(
    'parts',
    splice,
    `{type: splice, name: ${written(`splice at ${point}`)}, place: ${written(part.place)}}`,
  );
  edits.set(['wires', index], wire.from === point ? 'from' : 'to', splice);
  const id = freeWire(circuit, before);
  edits.appendItem('wires', wireText(wire, id, splice, point, '0.1 m'), `${wire.id} ends in ${splice} now`);
  return { point: splice, wires: 1 };
}

function rename(
  circuit: Circuit,
  edits: Edits,
  { from, to }: Extract<Change, { do: 'rename' }>,
): string | Refusal {
  const id = known(circuit, from);
  if (id === undefined) return unknownId(circuit, from);
  const taken = id.toLowerCase() === to.toLowerCase() ? undefined : refuseTaken(circuit, to);
  if (taken !== undefined) return taken;
  const wire = circuit.wires.findIndex((one) => one.id === id);
  if (wire >= 0) edits.set(['wires', wire], 'id', to);
  else edits.renameKey(['parts', id], to);
  const moved = (point: string): string | undefined =>
    point.toLowerCase() === id.toLowerCase()
      ? to
      : point.toLowerCase().startsWith(`${id.toLowerCase()}.`)
        ? `${to}${point.slice(id.length)}`
        : undefined;
  if (wire < 0)
    circuit.wires.forEach((one, index) => {
      for (const end of ['from', 'to'] as const) {
        const now = moved(one[end]);
        if (now !== undefined) edits.set(['wires', index], end, now);
      }
    });
  const never = edits.at(['never-probe']);
  if (Array.isArray(never))
    never.forEach((one, index) => {
      const now = typeof one === 'string' ? moved(one) : undefined;
      if (now !== undefined) edits.setItem(['never-probe', index], now);
    });
  return `${id} is called ${to}`;
}

function figureFor(text: string): { readonly key: string; readonly value: string } | Refusal {
  const entry = inCatalogue('lamp', text);
  if (entry !== undefined && hasTwo(entry))
    return {
      wrong: `${entry.id} has two filaments, and this adds one`,
      mend: 'add a lamp for each filament',
    };
  if (entry !== undefined) return { key: 'catalogue', value: entry.id };
  if (/^\d+(?:[.,]\d+)?\s*w$/i.test(text)) return { key: 'watts', value: text.replace(/\s*w$/i, ' W') };
  const names = CATALOGUE.filter((one) => one.type === 'lamp' && !hasTwo(one)).map(({ id }) => id);
  return {
    wrong: `"${text}" says neither watts nor a lamp of the catalogue`,
    mend: `write it like 21 W, or ${names.slice(0, 5).join(', ')}`,
  };
}

function hasTwo({ made }: CatalogueEntry): boolean {
  return [...made.values()].some(({ filaments }) => filaments !== undefined);
}

function refuseTaken(circuit: Circuit, id: string): Refusal | undefined {
  const there = known(circuit, id);
  return there === undefined ? undefined : { wrong: `${there} is there already`, mend: 'choose another id' };
}

/** A place of the file; a new one is put in with a guess of the minutes. */
function placeFor(circuit: Circuit, edits: Edits, typed: string): string | Refusal {
  const found = [...circuit.places.keys()].find((place) => place.toLowerCase() === typed.toLowerCase());
  if (found !== undefined) return found;
  if (typed.trim() === '')
    return { wrong: 'no place is named after "at"', mend: 'write it like: at tail left' };
  edits.append('places', written(typed), '5 min # a guess');
  return typed;
}

function placeOf({ parts, places }: Circuit, point: PointId): string {
  const name = point.split('.')[0]!.toLowerCase();
  const part = [...parts.values()].find(({ id }) => id.toLowerCase() === name);
  return part?.place ?? [...places.keys()][0]!;
}

function wireText(
  { mm2, colour, bundle, neverProbe }: Wire,
  id: string,
  from: PointId,
  to: PointId,
  length: string,
): string {
  const more = [
    ...(colour === '' ? [] : [`colour: ${colour}`]),
    ...(bundle === '' ? [] : [`bundle: ${written(bundle)}`]),
    ...(neverProbe ? ['never-probe: true'] : []),
  ];
  return `{id: ${id}, from: ${from}, to: ${to}, size: ${Number(mm2.toPrecision(4))} mm2, length: ${length}${more.map((one) => `, ${one}`).join('')}}`;
}

/** Wires without an id are counted by their place in the list, so a new one at its end takes a number that no later one gets. */
function freeWire(circuit: Circuit, skip: number): string {
  const ids = new Set([
    ...circuit.wires.map(({ id }) => id.toLowerCase()),
    ...[...circuit.parts.keys()].map((id) => id.toLowerCase()),
  ]);
  const free: string[] = [];
  for (let number = circuit.wires.length + 1; free.length <= skip; number++)
    if (!ids.has(`w${number}`)) free.push(`W${number}`);
  return free[skip]!;
}

function freePart(circuit: Circuit, letters: string, skip: number): string {
  const ids = new Set(
    [...circuit.parts.keys(), ...circuit.wires.map(({ id }) => id)].map((id) => id.toLowerCase()),
  );
  const free: string[] = [];
  for (let number = 1; free.length <= skip; number++)
    if (!ids.has(`${letters}${number}`.toLowerCase())) free.push(`${letters}${number}`);
  return free[skip]!;
}
