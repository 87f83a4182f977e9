/**
 * Every fault a circuit can have: where it sits, what it does to the network, how severe it can be, how likely it is before
 * any reading, and what would repair it.
 */
import type { Circuit, Part, Wire } from '../circuit/circuit.js';
import { filamentLaw } from '../network/compile.js';
import type { Element, Network } from '../network/network.js';
import type { AppliedFault } from '../network/solver-types.js';
import { siteLabel } from './labels.js';
import { connectionShares } from './runs.js';
import type { Scale } from './severity.js';
import { FIXED, linearScale, logScale, SERIES, SHUNT } from './severity.js';

export type FaultKind =
  | 'resistance' // a contact or wire with added ohms, up to open
  | 'open' // a fuse, filament, coil or winding that is broken
  | 'short' // insulation or a part leaking or shorted to body metal
  | 'stuck' // a contact that stays closed
  | 'flat' // the battery gives too few volts
  | 'wrong'; // another part fitted than the drawing says

export interface Repair {
  /** "clean and tighten GP2 (left tail ground)". Faults with the same words are one repair. */
  readonly how: string;
  readonly minutes: number;
  readonly price: number;
}

export interface Fault {
  /** Unique in the circuit: `X3.1 resistance`. */
  readonly id: string;
  readonly site: string;
  /** Part or wire it belongs to. */
  readonly part: string;
  /** An item goes away with the part; a position and a wire stay. */
  readonly owner: Element['owner'];
  readonly kind: FaultKind;
  /** "high resistance or open at X3.1 (left lamp connector)". */
  readonly label: string;
  readonly scale: Scale;
  readonly apply: (severity: number) => AppliedFault;
  /** Does its severity drift by itself and with meter current (contacts)? */
  readonly contact: boolean;
  /** Relative odds before any reading. */
  readonly weight: number;
  readonly repair: Repair;
}

/**
 * Prior odds. Only three coarse classes are trusted: lamp with its socket, connections, everything else. In proven systems bad
 * connections lead, then blown protection, then active parts (Lessons in Electric Circuits V ch. 8 "Likely failures in proven
 * systems"); lamps fail far more often than switches and relays, those more than connectors and fuses as parts
 * (MIL-HDBK-217F N2, ground mobile). Wiring opens more often than it shorts; contacts hardly ever weld (same chapter).
 * The figures themselves are rounded to halves: common practice, no source.
 */
const ODDS = {
  filament: 6,
  /** One unbranched run of joints and wires, however many joints are drawn in it. */
  connections: 6,
  shorts: 0.5,
  fuse: 2,
  switchContact: 2.5,
  relayContact: 2,
  coil: 0.7,
  welded: 0.4,
  horn: 3,
  motor: 3,
  resistor: 0.5,
  diode: 0.3,
  flat: 1,
  weakBattery: 0.5,
  wrongLamp: 0.4,
} as const;

/** Minutes at the part once its place is open, and the usual money; common practice, no source. */
const WORK = {
  clean: 6,
  tighten: 6,
  splice: 20,
  replace: 5,
} as const;

export function listFaults(circuit: Circuit, network: Network): Fault[] {
  const shares = connectionShares(circuit, network);
  const faults: Fault[] = [];
  const add = (
    element: Element,
    kind: FaultKind,
    scale: Scale,
    weight: number,
    extra: Partial<Fault> & Pick<Fault, 'apply' | 'repair'>,
  ) => {
    const site = siteLabel(circuit, element);
    const suffix = extra.id ?? kind;
    faults.push({
      site: element.site,
      part: element.part,
      owner: element.owner,
      kind,
      label: faultWords(kind, site, element),
      scale,
      contact: false,
      weight,
      ...extra,
      id: `${element.site} ${suffix}`,
    });
  };
  const wires = new Map(circuit.wires.map((wire) => [wire.id, wire]));
  for (const element of network.elements) {
    const part = circuit.parts.get(element.part);
    const share = shares.get(element.index) ?? 0;
    if (element.owner === 'wire') wireFaults(element, wires.get(element.part)!, share);
    else if (element.owner === 'position') jointFaults(element, part!, share);
    else itemFaults(element, part!);
  }
  return faults;

  function wireFaults(element: Element, wire: Wire, share: number): void {
    const repair = {
      how: `repair wire ${wire.id} (${wire.from} to ${wire.to})`,
      minutes: WORK.splice,
      price: 2,
    };
    add(element, 'resistance', SERIES, ODDS.connections * share, {
      apply: series(element),
      repair,
      contact: true,
    });
    add(element, 'short', SHUNT, ODDS.shorts * share, {
      apply: (ohms) => ({ kind: 'shunt', node: element.b, ohms }),
      repair,
    });
  }

  function jointFaults(element: Element, part: Part, share: number): void {
    add(element, 'resistance', SERIES, ODDS.connections * share, {
      apply: series(element),
      repair: jointRepair(part, element.site),
      contact: true,
    });
    if (
      part.type === 'battery' ||
      part.type === 'ground' ||
      part.type === 'splice' ||
      part.type === 'connector'
    )
      return;
    add(element, 'short', SHUNT, ODDS.shorts * share, {
      apply: (ohms) => ({ kind: 'shunt', node: element.b, ohms }),
      repair: replacement(part),
      label: `${part.id} (${part.label}) shorted or leaking to its housing at terminal ${element.site.slice(part.id.length + 1)}`,
    });
  }

  function itemFaults(element: Element, part: Part): void {
    const { law } = element;
    const replace = { apply: series(element), repair: replacement(part) };
    if (law.kind === 'fuse') {
      add(element, 'open', FIXED, ODDS.fuse, { ...replace, apply: openSeries(element) });
      return;
    }
    if (law.kind === 'source') {
      const nominal = circuit.nominalVolts;
      const repair = { how: `charge or replace battery ${part.id}`, minutes: 15, price: part.price };
      add(element, 'flat', linearScale('V', 0, law.lowVolts, 12), ODDS.flat, {
        apply: (volts) => ({
          kind: 'law',
          element: element.index,
          law: { ...law, volts, lowVolts: volts, highVolts: volts },
        }),
        repair,
      });
      add(element, 'resistance', logScale('ohm', 0.01, 100, 3), ODDS.weakBattery, {
        apply: series(element),
        repair,
        label: `${part.id} (${part.label}) weak: its volts fall under load (${nominal} V system)`,
      });
      return;
    }
    if (law.kind === 'contact') {
      const relay = part.type === 'relay';
      add(element, 'resistance', SERIES, relay ? ODDS.relayContact : ODDS.switchContact, {
        ...replace,
        contact: true,
      });
      add(element, 'stuck', FIXED, ODDS.welded, {
        apply: () => ({ kind: 'stuck', element: element.index, closed: true }),
        repair: replacement(part),
      });
      return;
    }
    if (element.site.endsWith(' lead')) return leadFaults(element, part);
    if (part.type === 'resistor') add(element, 'resistance', SERIES, ODDS.resistor, replace);
    if (part.type === 'diode') {
      add(element, 'short', FIXED, ODDS.diode, {
        apply: () => ({
          kind: 'law',
          element: element.index,
          law: { kind: 'ohms', ohms: 0.05, low: 0.001, high: 0.3 },
        }),
        repair: replacement(part),
        id: 'shorted',
        label: `${part.id} (${part.label}) shorted: it conducts both ways`,
      });
    }
    if (part.type === 'lamp' && law.kind === 'curve')
      wrongLamps(element, part, law.volts, law.amps * law.volts);
  }

  function leadFaults(element: Element, part: Part): void {
    const odds =
      part.type === 'lamp'
        ? ODDS.filament
        : part.type === 'horn'
          ? ODDS.horn
          : part.type === 'motor'
            ? ODDS.motor
            : ODDS.coil;
    const filament = part.type === 'lamp' || part.type === 'relay';
    add(
      element,
      filament ? 'open' : 'resistance',
      filament ? FIXED : SERIES,
      part.type === 'diode' ? ODDS.diode : odds,
      {
        apply: filament ? openSeries(element) : series(element),
        repair: replacement(part),
      },
    );
  }

  function wrongLamps(element: Element, part: Part, volts: number, watts: number): void {
    const fit = (fittedWatts: number, fittedVolts: number): AppliedFault => ({
      kind: 'law',
      element: element.index,
      law: filamentLaw(fittedWatts, fittedVolts),
    });
    const repair = { ...replacement(part), how: `fit the right lamp in ${part.id} (${part.label})` };
    add(element, 'wrong', logScale('W', 1.5, 75, 6), ODDS.wrongLamp, {
      apply: (fitted) => fit(fitted, volts),
      repair,
      id: 'wrong watts',
      label: `lamp of the wrong watts in ${part.id} (${part.label}), not ${watts.toFixed(0)} W`,
    });
    const other = volts < 18 ? volts * 2 : volts / 2;
    add(element, 'wrong', FIXED, ODDS.wrongLamp, {
      apply: () => fit(watts, other),
      repair,
      id: 'wrong volts',
      label: `${other.toFixed(0)} V lamp in ${part.id} (${part.label}), not ${volts.toFixed(0)} V`,
    });
  }
}

function series(element: Element): (ohms: number) => AppliedFault {
  return (ohms) => ({ kind: 'series', element: element.index, ohms });
}

function openSeries(element: Element): () => AppliedFault {
  return () => ({ kind: 'series', element: element.index, ohms: Infinity });
}

function replacement(part: Part): Repair {
  return { how: `replace ${part.id} (${part.label})`, minutes: WORK.replace, price: part.price };
}

function jointRepair(part: Part, site: string): Repair {
  const name = `${part.id} (${part.label})`;
  switch (part.type) {
    case 'ground':
      return { how: `clean and tighten ground ${name}`, minutes: WORK.tighten, price: 0 };
    case 'battery':
      return { how: `clean and tighten the clamps of ${name}`, minutes: WORK.tighten, price: 0 };
    case 'splice':
      return { how: `remake the splice ${name}`, minutes: WORK.splice, price: 1 };
    case 'connector':
      return { how: `clean and seat the pins of connector ${name}`, minutes: WORK.clean, price: 0 };
    default:
      return {
        how: `clean and tighten the contacts of ${name} at terminal ${site.slice(part.id.length + 1)}`,
        minutes: WORK.clean,
        price: 0,
      };
  }
}

function faultWords(kind: FaultKind, site: string, element: Element): string {
  switch (kind) {
    case 'resistance':
      return element.law.kind === 'contact'
        ? `burnt, dirty or open: ${site}`
        : `high resistance or open: ${site}`;
    case 'open':
      return element.law.kind === 'fuse' ? `blown: ${site}` : `broken inside: ${site}`;
    case 'short':
      return `short to body metal: ${site}`;
    case 'stuck':
      return `stuck closed: ${site}`;
    case 'flat':
      return `flat: ${site}`;
    case 'wrong':
      return `wrong part: ${site}`;
  }
}

/** Faults that can draw more than a fuse stands. */
export function canBlow(fault: Fault): boolean {
  return fault.kind === 'short' || fault.kind === 'wrong';
}
