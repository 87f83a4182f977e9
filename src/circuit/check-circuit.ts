/** A document → a checked circuit: first its shape (schema), then its names and numbers, then its wiring. */
import { buildPart } from './build-parts.js';
import { buildWires } from './build-wires.js';
import type { Circuit, Control, ControlRisk, Part, Place, PlaceHazard, Wire } from './circuit.js';
import { pointer, sorted, type Diagnostic, type Ranges } from './diagnostic.js';
import { readCosts } from './costs.js';
import type { CircuitDocument } from './document.js';
import { Mistakes } from './mistakes.js';
import { netsOf } from './nets.js';
import { neverProbeOf } from './never-probe.js';
import { checkCurrent } from './rules-current.js';
import { checkFrames } from './rules-frame.js';
import { adviseFuses } from './rules-fuse.js';
import { checkWiring } from './rules-wiring.js';
import { CIRCUIT_SCHEMA } from './schema.js';
import { schemaCheck, type SchemaCheck } from './schema-check.js';

export type CheckedCircuit =
  | { readonly circuit: Circuit; readonly advice: readonly Diagnostic[] }
  /** At least one error; advice among them. */
  | { readonly problems: readonly Diagnostic[] };

let compiled: SchemaCheck | undefined;

/**
 * Checks a document (every scalar still text, objects without prototype) and builds the circuit. Never throws on any
 * document; each later stage runs only when the one before found nothing, so that one mistake is told once.
 */
export function checkCircuit(value: unknown, ranges: Ranges): CheckedCircuit {
  compiled ??= schemaCheck(CIRCUIT_SCHEMA);
  const shape = compiled(value, ranges);
  if (shape.length > 0) return { problems: sorted(shape) };
  const document = value as CircuitDocument;
  const mistakes = new Mistakes();

  const nominalVolts = mistakes.amount(document.nominal, 'volts', ranges.value('/nominal'), 12);
  const controls = readControls(document, ranges, mistakes);
  const places = readPlaces(document, ranges, mistakes);
  noTwins(Object.keys(document.parts), 'parts', ranges, mistakes);
  const parts = new Map<string, Part>();
  const placeNames = new Map([...places.keys()].map((name) => [name.toLowerCase(), name]));
  for (const [id, part] of Object.entries(document.parts)) {
    if (id.toLowerCase() === 'body') {
      mistakes.error(
        'bad-value',
        ranges.key(pointer('parts', id)),
        '“body” means bare body metal',
        'choose another id for this part',
      );
    }
    parts.set(id, buildPart(id, part, { nominalVolts, controls, places: placeNames, ranges, mistakes }));
  }
  const wires = buildWires(document.wires, parts, ranges, mistakes);
  checkBattery(parts, ranges, mistakes);
  checkFrames(parts, ranges, mistakes);
  const costs = readCosts(document.costs ?? {}, '/costs', ranges, mistakes);
  const neverProbe = neverProbeOf(document, parts, wires, ranges, mistakes);
  if (mistakes.errors === 0) checkWhole(parts, wires, controls, ranges, mistakes);
  if (mistakes.errors > 0) return { problems: sorted(mistakes.list) };

  adviseUnused(document, parts, ranges, mistakes);
  const circuit: Circuit = {
    id: document.circuit,
    title: document.title,
    about: (document.about ?? '').trim(),
    nominalVolts,
    controls,
    places,
    parts,
    wires,
    neverProbe,
    costs,
  };
  return { circuit, advice: sorted(mistakes.list) };
}

function checkWhole(
  parts: ReadonlyMap<string, Part>,
  wires: readonly Wire[],
  controls: ReadonlyMap<string, Control>,
  ranges: Ranges,
  mistakes: Mistakes,
): void {
  checkWiring(parts, wires, ranges, mistakes);
  if (mistakes.errors > 0) return;
  const nets = netsOf({ parts, wires });
  if (!nets) return;
  if (nets.plus === nets.minus) {
    const battery = [...parts.values()].find((part) => part.type === 'battery')!;
    mistakes.error(
      'contradiction',
      ranges.key(pointer('parts', battery.id)),
      'wires join battery + straight to battery −',
      'find the wire that closes this short circuit and correct its ends',
    );
    return;
  }
  checkCurrent(nets, ranges, mistakes);
  if (mistakes.errors > 0) return;
  adviseFuses(nets, new Map([...controls].map(([id, control]) => [id, control.positions])), ranges, mistakes);
}

function readControls(document: CircuitDocument, ranges: Ranges, mistakes: Mistakes): Map<string, Control> {
  const controls = new Map<string, Control>();
  noTwins(Object.keys(document.controls ?? {}), 'controls', ranges, mistakes);
  for (const [id, written] of Object.entries(document.controls ?? {})) {
    const long = 'positions' in written ? written : undefined;
    const positions = long?.positions ?? (written as readonly string[]);
    const at = long ? pointer('controls', id, 'positions') : pointer('controls', id);
    positions.forEach((position, index) => {
      if (positions.findIndex((other) => other.toLowerCase() === position.toLowerCase()) < index) {
        mistakes.error(
          'duplicate-id',
          ranges.value(`${at}/${index}`),
          `${id} has the position “${position}” twice`,
          'delete one, or give it another name',
        );
      }
    });
    controls.set(id, {
      id,
      positions,
      risk: long?.risk as ControlRisk | undefined,
      helper: long?.helper === 'true',
    });
  }
  return controls;
}

function readPlaces(document: CircuitDocument, ranges: Ranges, mistakes: Mistakes): Map<string, Place> {
  const places = new Map<string, Place>();
  noTwins(Object.keys(document.places), 'places', ranges, mistakes);
  for (const [id, written] of Object.entries(document.places)) {
    const at = pointer('places', id);
    const short = typeof written === 'string';
    const minutes = mistakes.amount(
      short ? written : written.open,
      'time',
      ranges.value(short ? at : `${at}/open`),
      1,
    );
    places.set(id, { id, minutes, hazard: short ? undefined : (written.hazard as PlaceHazard | undefined) });
  }
  return places;
}

/** Names that differ only in case are one name to a person. */
function noTwins(names: readonly string[], group: string, ranges: Ranges, mistakes: Mistakes): void {
  const seen = new Map<string, string>();
  for (const name of names) {
    const twin = seen.get(name.toLowerCase());
    if (twin !== undefined) {
      mistakes.error(
        'duplicate-id',
        ranges.key(pointer(group, name)),
        `“${name}” and “${twin}” differ only in capital letters`,
        'give one of them another name',
      );
    }
    seen.set(name.toLowerCase(), name);
  }
}

function checkBattery(parts: ReadonlyMap<string, Part>, ranges: Ranges, mistakes: Mistakes): void {
  const [first, ...more] = [...parts.values()].filter((part) => part.type === 'battery');
  if (!first) {
    mistakes.error(
      'no-battery',
      ranges.key('/parts'),
      'there is no battery among the parts',
      'add one, like G1: {type: battery, place: battery}, and wire its terminals 30 and 31',
    );
  }
  for (const battery of more) {
    mistakes.error(
      'contradiction',
      ranges.key(pointer('parts', battery.id)),
      `${battery.id} is a second battery beside ${first!.id}`,
      'draw the batteries as one with their joint voltage',
    );
  }
}

function adviseUnused(
  document: CircuitDocument,
  parts: ReadonlyMap<string, Part>,
  ranges: Ranges,
  mistakes: Mistakes,
): void {
  const used = new Set<string>();
  for (const part of parts.values()) {
    used.add(`places ${part.place}`);
    if ('control' in part) used.add(`controls ${part.control}`);
  }
  for (const group of ['places', 'controls'] as const) {
    for (const name of Object.keys(document[group] ?? {})) {
      if (used.has(`${group} ${name}`)) continue;
      mistakes.advice(
        'unused',
        ranges.key(pointer(group, name)),
        group === 'places' ? `no part sits at “${name}”` : `nothing is worked by “${name}”`,
        'delete it, or correct the name where it was meant',
      );
    }
  }
}
