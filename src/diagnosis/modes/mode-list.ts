/** Where the part families put their fault modes, with the words that most of them share. */
import type { Circuit, Part } from '../../circuit/circuit.js';
import type { Element, Law, Network } from '../../network/network.js';
import type { AppliedFault } from '../../network/solver-types.js';
import type { Fault, FaultKind, Repair } from '../fault.js';
import { siteLabel } from '../labels.js';
import type { Scale } from '../severity.js';
import { WORK } from './odds.js';

/** What a mode must say itself, and what it may say otherwise than usual; `id` is what follows the site in the fault's id. */
export type ModeWords = Pick<Fault, 'apply' | 'repair'> &
  Partial<Pick<Fault, 'id' | 'label' | 'contact' | 'inHousing'>>;

export class ModeList {
  readonly faults: Fault[] = [];

  constructor(
    readonly circuit: Circuit,
    readonly network: Network,
  ) {}

  add(element: Element, kind: FaultKind, scale: Scale, weight: number, words: ModeWords): void {
    const { site, part, owner } = element;
    this.faults.push({
      site,
      part,
      owner,
      kind,
      scale,
      weight,
      apply: words.apply,
      repair: words.repair,
      contact: words.contact ?? false,
      inHousing: words.inHousing ?? false,
      label: words.label ?? usualLabel(kind, siteLabel(this.circuit, element), element),
      id: `${site} ${words.id ?? kind}`,
    });
  }
}

/** "F4 (fuse stop lamps)". */
export function nameOf(part: Part): string {
  return `${part.id} (${part.label})`;
}

export function replacement(part: Part): Repair {
  return { how: `replace ${nameOf(part)}`, minutes: WORK.replace, price: part.price };
}

/** Ohms in series with an element. */
export function series(element: Element): (ohms: number) => AppliedFault {
  return (ohms) => ({ kind: 'series', element: element.index, ohms });
}

export function open(element: Element): () => AppliedFault {
  return () => ({ kind: 'series', element: element.index, ohms: Infinity });
}

/** Ohms beside an element of an item, from one of its ends to the other. */
export function beside({ a, b, index }: Element): (ohms: number) => AppliedFault {
  return (ohms) => ({ kind: 'bridge', a, b, ohms, element: index });
}

/** Another law in place of the element's own. */
export function obeys(element: Element, law: Law): AppliedFault {
  return { kind: 'law', element: element.index, law };
}

function usualLabel(kind: FaultKind, site: string, element: Element): string {
  switch (kind) {
    case 'resistance':
      return element.law.kind === 'contact'
        ? `burnt, dirty or open: ${site}`
        : `high resistance or open: ${site}`;
    case 'open':
      if (element.law.kind !== 'fuse') return `broken inside: ${site}`;
      return element.law.resets === undefined ? `blown: ${site}` : `tripped or broken: ${site}`;
    case 'short':
      return `short to body metal: ${site}`;
    case 'stuck':
      return `stuck closed: ${site}`;
    case 'wrong':
      return `wrong part: ${site}`;
    case 'leaking':
      return `lets current back: ${site}`;
    case 'drifted':
      return `out of tolerance: ${site}`;
    case 'flat':
    case 'undercharging':
    case 'overcharging':
    case 'seized':
    case 'dragging':
    case 'touching':
    case 'crossed':
    case 'tapped':
    case 'dead':
    case 'awake':
      return `${kind}: ${site}`;
  }
}
