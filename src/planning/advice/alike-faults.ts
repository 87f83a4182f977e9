/**
 * Advice: stretches in which no probe can be put, so that faults in them look the same in every test. The parts of one
 * wire and its ends are not told of: there a look along the wire is the test.
 */
import { pointer } from '../../circuit/diagnostic.js';
import { runRepresentatives } from '../../diagnosis/effect.js';
import type { Fault } from '../../diagnosis/fault.js';
import type { Workbench } from '../../diagnosis/workbench.js';
import { outOfReach, pointsAt } from '../reach.js';
import type { Advice } from './advised.js';
import { fewNames } from './stretches.js';

/** Of one part, named. */
const MOST_STRETCHES = 4;

export function adviseAlike(bench: Workbench): readonly Advice[] {
  const { circuit, network, faults } = bench;
  const points = [...circuit.parts.values()].flatMap((part) => pointsAt(part));
  const reachable = points.filter((point) => outOfReach(circuit, point) === undefined);
  const nodes = reachable.flatMap((point) => network.points.get(point) ?? []);
  const runs = runRepresentatives(network, new Uint8Array(network.elements.length).fill(1), nodes);
  const groups = new Map<number, Fault[]>();
  for (const fault of faults) {
    const element = network.sites.get(fault.site);
    if (element === undefined || (fault.kind !== 'resistance' && fault.kind !== 'open')) continue;
    const run = runs[element]!;
    groups.set(run, [...(groups.get(run) ?? []), fault]);
  }
  const told = [...groups.values()].flatMap((group): string[][] => {
    const parts = [...new Set(group.filter(({ site }) => !site.includes('/')).map(({ part }) => part))];
    const repairs = new Set(group.map(({ repair }) => repair.how));
    return parts.length < 2 || repairs.size < 2 ? [] : [parts];
  });
  return byPlace(bench, told).map(([at, stretches]): Advice => {
    const [hidden] = points.flatMap((point) => {
      const why = outOfReach(circuit, point);
      return why !== undefined && stretches.flat().includes(point.split('.')[0]!)
        ? [`${point} is ${why}`]
        : [];
    });
    const names = stretches.slice(0, MOST_STRETCHES).map((parts) => fewNames(parts, 6));
    const more = stretches.length - names.length;
    return {
      code: 'alike-faults',
      at,
      message: `faults of ${names.join('; of ')}${more > 0 ? `; and ${more} more such stretches` : ''} look the same in every test: no probe comes between them${hidden === undefined ? '' : ` (${hidden})`}`,
      mend: 'draw a connector or splice that can be reached between them, if there is one; else they are looked at by eye',
    };
  });
}

/** Stretches that begin at the same part are told of together: those of a switch nobody may probe, for example. */
function byPlace(
  bench: Workbench,
  told: readonly string[][],
): readonly (readonly [string, readonly string[][]])[] {
  const places = new Map<string, string[][]>();
  for (const parts of told) {
    const at = placeOf(bench, parts);
    places.set(at, [...(places.get(at) ?? []), parts]);
  }
  return [...places];
}

/** The part that comes first in the file; wires only where there is nothing else. */
function placeOf({ circuit }: Workbench, parts: readonly string[]): string {
  const [part] = parts.filter((id) => circuit.parts.has(id));
  if (part !== undefined) return pointer('parts', part);
  const index = circuit.wires.findIndex(({ id }) => parts.includes(id));
  return pointer('wires', index);
}
