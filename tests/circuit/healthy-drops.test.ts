/**
 * What a healthy circuit loses on the way, in every position of its controls, against the limits of the trade for 12 V (twice that
 * at 24 V). Where a circuit loses more on purpose, or as such layouts do, it stands here with the reason.
 */
import { readdirSync } from 'node:fs';
import { expect, it } from 'vitest';
import { sourceElement } from '../../src/network/conditions.js';
import { standingOf } from '../../src/diagnosis/evidence.js';
import { lawOhms } from '../../src/network/laws.js';
import type { Law } from '../../src/network/network.js';
import { workbenchOf } from '../diagnosis/session-of.js';
import { setUps } from '../oracle/table-circuits.js';

/**
 * Volts under load at 12 V. Cable 0.2, switch or contact 0.3, ground 0.1, high-current connection 0.1, whole circuit 1.0: repair
 * manual quoting SAE (no J-number given); cable 0.2 and ground 0.1 also in US Navy NAVEDTRA 14050.
 */
const LIMITS = { wire: 0.2, contact: 0.3, ground: 0.1, joint: 0.1, circuit: 1.0 } as const;

type What = keyof typeof LIMITS;

/** More than the limit, up to this, and why. `circuit` is followed by the load. */
const EXPLAINED: Readonly<Record<string, readonly (readonly [what: string, upTo: number, why: string])[]>> = {
  blower: [['circuit M1', 2.5, 'the resistor pack takes volts on purpose']],
  charging: [
    ['wire W21', 0.25, '15 A go to the rear window through 4 mm2'],
    ['circuit H1', 1.2, 'the charge lamp lies in series with the field of the alternator'],
  ],
  'door-locks': [
    [
      'circuit M1',
      1.2,
      'three motors at once, for a second, through two relay contacts and two door connectors',
    ],
    ['circuit M2', 1.2, 'as M1'],
    ['circuit M3', 1.3, 'as M1, and the long way to the rear door'],
  ],
  'fuel-gauge': [['circuit E1', 3, 'the sender lies in series with the gauge']],
  'headlamps-ground': [
    [
      'circuit H1.56a',
      1.2,
      'both lamps go back through one lever; such layouts lose more than those with a relay',
    ],
    ['circuit H2.56a', 1.2, 'as H1'],
    ['circuit H2.56b', 1.1, 'as H1'],
  ],
  'headlamps-switch': [
    ['circuit H1.56a', 1.05, 'the current of both lamps goes through light switch and dip lever'],
    ['circuit H2.56a', 1.05, 'as H1'],
  ],
  'power-window': [['circuit M1', 1.3, 'two switches and two door connectors there and back']],
  'rear-window-heater': [['circuit E1', 1.3, '15 A over 5 m to the rear door']],
  'reversing-lamps': [['wire W8', 0.25, '42 W through 4 m of 1 mm2, as such vans have it']],
  'stop-tail': [['wire W13', 0.21, 'three stop lamps through one wire of 1.5 mm2']],
  'trailer-13': [
    ['wire W55', 0.35, 'ISO 11446 asks for 2.5 mm2, and the refrigerator draws 11 A over 5 m'],
    ['wire W56', 0.35, 'as W55'],
    ['circuit R1', 1.7, 'as W55'],
    ['circuit H1.54', 1.4, 'all lamps go back through pin 3 over 6 m of 2.5 mm2'],
    ['circuit H2.54', 1.4, 'as H1'],
    ['circuit H5', 1.3, 'as H1'],
    ['circuit H6', 1.3, 'as H1'],
    ['circuit H3', 1.2, 'as H1'],
    ['circuit H4', 1.25, 'as H1'],
  ],
  'turn-hazard': [
    [
      'circuit H3',
      1.15,
      'all lamps of both sides go through two contacts of the hazard switch and the flasher',
    ],
    ['circuit H6', 1.15, 'as H3'],
    ['circuit H4', 1.1, 'as H3'],
    ['circuit H1', 1.1, 'as H3'],
  ],
  'whole-car-draw': [
    ['circuit E5', 1.7, 'everything with the key is drawn on one switch, without relays'],
    ['circuit E6', 1.7, 'as E5'],
  ],
  wipers: [['circuit M1', 3.1, 'the resistor for slow wiping takes volts on purpose']],
  'work-lamps': [['wire W12', 0.22, 'two lamps of 55 W over the roof through one wire of 2.5 mm2']],
};

const circuits = readdirSync(new URL('../../circuits/', import.meta.url)).map((file) =>
  file.replace('.yaml', ''),
);

it.each(circuits)('when %s is healthy then it loses no more on the way than it may', async (name) => {
  const worst = await worstDrops(name);
  const explained = new Map((EXPLAINED[name] ?? []).map(([what, upTo]) => [what, upTo]));
  const over: string[] = [];
  const needless = new Set(explained.keys());
  for (const [what, volts] of worst) {
    const limit = LIMITS[what.split(' ')[0] as What];
    if (volts > limit) needless.delete(what);
    if (volts > (explained.get(what) ?? limit)) over.push(`${what}: ${volts.toFixed(3)} V`);
  }
  expect(over).toEqual([]);
  expect([...needless]).toEqual([]);
});

/** The most volts, as at 12 V, by kind and site, over all set-ups with the engine off. */
async function worstDrops(name: string): Promise<Map<string, number>> {
  const bench = await workbenchOf(name);
  const { circuit, network } = bench;
  const plus = network.points.get('bat+')!;
  const worst = new Map<string, number>();
  for (const setUp of setUps(circuit)) {
    if (setUp.engine === 'running') continue;
    const { added, present, source } = standingOf(bench, setUp);
    const battery = { kind: 'law', element: sourceElement(network), law: source } as const;
    for (const outcome of bench.solver(added).solve({ present, faults: [battery], blown: 0 })) {
      const { volts } = outcome;
      const note = (what: What, site: string, drop: number) => {
        const at12 = (drop * 12) / circuit.nominalVolts;
        const key = `${what} ${site}`;
        worst.set(key, Math.max(at12, worst.get(key) ?? 0));
      };
      for (const { owner, part, site, a, b, law, index } of network.elements) {
        const drop = Math.abs(volts[a]! - volts[b]!);
        const { type } = circuit.parts.get(part) ?? { type: 'wire' };
        if (owner === 'wire') note('wire', site, drop);
        else if (owner === 'position') note(type === 'ground' ? 'ground' : 'joint', site, drop);
        else if (law.kind === 'contact' && (type === 'switch' || type === 'relay')) {
          const open = present[index] === 0 || drop > 100 * lawOhms(law, 0);
          if (!open && carriesIt(type, law.closed, outcome.pulledIn, network.coils))
            note('contact', site, drop);
        }
      }
      for (const { id, element } of network.loads.values()) {
        const { a, b } = network.elements[element]!;
        const across = Math.abs(volts[a]! - volts[b]!);
        // What is meant to be off, and a coil fed backwards, is no load.
        if (across > 0.6 * volts[plus]!) note('circuit', id, volts[plus]! - across);
      }
    }
  }
  return worst;
}

/** Whether a relay contact is closed by its coil; a switch in its position is. */
function carriesIt(
  type: string,
  closed: Extract<Law, { kind: 'contact' }>['closed'],
  pulledIn: number,
  coils: readonly number[],
): boolean {
  if (type === 'switch' || closed.kind !== 'coil') return true;
  return ((pulledIn >> coils.indexOf(closed.coil)) & 1) === (closed.rest === 'open' ? 1 : 0);
}
