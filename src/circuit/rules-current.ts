/** Rule: with every contact closed, current can go from battery + through each load to battery −. */
import { pointer, type Ranges } from './diagnostic.js';
import type { Mistakes } from './mistakes.js';
import type { Branch, Nets } from './nets.js';
import { carries, reach, type Link } from './ways.js';

/** Notes each load (lamp filament, horn, motor, relay coil) that can carry no current. */
export function checkCurrent(nets: Nets, ranges: Ranges, mistakes: Mistakes): void {
  const { count, plus, minus, branches } = nets;
  const open = branches.filter((branch) => branch.kind !== 'load');
  const merged = mergeContacts(nets);
  for (const load of branches.filter((branch) => branch.kind === 'load')) {
    // Straight: contacts may not share a net, but change-over contacts do not short anything (motor reversing switch).
    if (carries(count, open, load.a, load.b, plus, minus)) continue;
    // Through other loads, for lamps in series.
    const others = branches.filter((branch) => branch !== load).map(merged.link);
    if (carries(count, others, merged.of(load.a), merged.of(load.b), merged.of(plus), merged.of(minus)))
      continue;
    explain(load, nets, open, ranges, mistakes);
  }
}

function explain(
  load: Branch,
  nets: Nets,
  open: readonly Branch[],
  ranges: Ranges,
  mistakes: Mistakes,
): void {
  const range = ranges.key(pointer('parts', load.part.id));
  const name = `${load.part.label} (${load.ends[0]})`;
  const fromPlus = reach(nets.count, open, nets.plus);
  const fromMinus = reach(nets.count, open, nets.minus);
  const [feed, back] = load.ends;
  if (load.a === load.b) {
    mistakes.error(
      'contradiction',
      range,
      `both terminals of ${name} are joined by wires, so no current goes through it`,
      `check the wires at ${feed} and ${back}`,
    );
  } else if (!fromMinus[load.a] && !fromMinus[load.b]) {
    mistakes.error(
      'no-way-to-ground',
      range,
      `${name} has no way to ground, even with every switch closed`,
      `follow the wires from ${back}: they must reach a ground point or battery 31`,
    );
  } else if (!fromPlus[load.a] && !fromPlus[load.b]) {
    mistakes.error(
      'no-way-to-battery',
      range,
      `${name} has no way to battery +, even with every switch closed`,
      `follow the wires from ${feed}: they must reach battery 30`,
    );
  } else {
    const toGround = fromMinus[load.a] && fromMinus[load.b];
    mistakes.error(
      toGround ? 'no-way-to-battery' : 'no-way-to-ground',
      range,
      `no current can go through ${name}: both its terminals lead only to ${toGround ? 'ground' : 'battery +'}`,
      `check the wires at ${feed} and ${back}`,
    );
  }
}

/** Nets drawn together across fuses and closed contacts. */
function mergeContacts(nets: Nets): { of: (net: number) => number; link: (branch: Branch) => Link } {
  const joined = nets.branches.filter((branch) => branch.kind === 'fuse' || branch.kind === 'contact');
  const label = new Int32Array(nets.count).fill(-1);
  for (let net = 0; net < nets.count; net++) {
    if (label[net]! >= 0) continue;
    reach(nets.count, joined, net).forEach((there, other) => {
      if (there) label[other] = net;
    });
  }
  const of = (net: number) => label[net]!;
  return { of, link: (branch) => ({ a: of(branch.a), b: of(branch.b) }) };
}
