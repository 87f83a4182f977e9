/**
 * From a recorded finding to a question the network can answer: what hangs on the circuit, between which two nodes the answer
 * is read, and which values agree with the reading.
 */
import { sourceLaw } from '../network/conditions.js';
import {
  AMMETER,
  AMMETER_OHMS,
  LOW_IMPEDANCE_VOLTMETER,
  ohmmeter,
  OHMMETER_VOLTS,
  testLamp,
  VOLTMETER,
  voltsError,
} from '../network/meters.js';
import type { LoadKind } from '../network/network.js';
import type { AddedElement } from '../network/solver-types.js';
import { awake } from '../session/actions.js';
import type { Finding } from '../session/case.js';
import type { Reading } from '../session/events.js';
import { lampEnds } from '../session/fuse-places.js';
import type { SetUp } from '../session/setup.js';
import { agrees } from './agreement.js';
import { attachedBy, node } from './attached.js';
import { figure, shownAs } from './figures.js';
import { answerBand, type ScanReading, scanOf } from './scan.js';
import { type Battery, sourceFor } from './source-for.js';
import type { Workbench } from './workbench.js';

/** What is read: (V(a) − V(b)) / scale, or the current from a to b through an element; or its magnitude. */
export interface Quantity {
  readonly a: number;
  readonly b: number;
  readonly scale: number;
  readonly magnitude: boolean;
  /** Element whose law gives the rated volts to divide by (a load), if a fault has changed it. */
  readonly load: number | undefined;
  /** Kind of what a person looks at or listens to, a test lamp included: judged by its bright moments. Left out: a meter shows it. */
  readonly seen?: LoadKind;
  /** Element around which a clamp sits; a and b are its ends. The reading is its current, in amperes. */
  readonly through?: number;
  /** Element whose own volts are asked, without what has broken inside it: a module sees no more of its input. a and b are its ends. */
  readonly inside?: number;
  /** A second load to subtract: two lamps seen side by side differ in what is their own, whatever the battery gives. */
  readonly minus?: Quantity;
}

export interface Observation extends Battery {
  /** Event number of the finding. */
  readonly finding: number;
  /** `answer`: whether a module answered at all, by the volts of its supply. */
  readonly kind: Reading['kind'] | 'battery' | 'contrast' | 'answer';
  readonly setUp: SetUp;
  readonly added: readonly AddedElement[];
  /** The same without the ohmmeter's own volts, to work out whether the line is live. */
  readonly unpowered: readonly AddedElement[] | undefined;
  readonly present: Uint8Array;
  readonly quantity: Quantity;
  /** Values of the quantity that agree with the reading. */
  readonly low: number;
  readonly high: number;
  /** The reading as it was given: "12.4 V", "off", "OL". */
  readonly shown: string;
  /** Rules out; otherwise it only ranks. */
  readonly hard: boolean;
  /** Taken at meter current (ohms) or at load current: contacts may differ between the two. */
  readonly current: 'load' | 'meter';
  /** Relays that were listened to while the vehicle stood as it does in this reading; left out: none. */
  readonly heard?: readonly Armature[];
  /** Number of an earlier finding that is told again because of what was heard in this one. */
  readonly retold?: number;
  /** Two loads were seen one after the other, and in between a control was worked or a test lamp drew its current. */
  readonly moved?: boolean;
}

/** A click, or none, is the armature's: it tells in which state the contacts stand. */
export interface Armature {
  /** Number of the finding. */
  readonly finding: number;
  /** Bit of the coil in a pulled-in mask. */
  readonly bit: number;
  readonly pulled: boolean;
}

/** The part of an observation that depends on the reading's kind and points but not on its value. */
export interface Probe {
  readonly kind: Observation['kind'];
  readonly added: readonly AddedElement[];
  readonly unpowered: readonly AddedElement[] | undefined;
  readonly present: Uint8Array;
  readonly quantity: Quantity;
  readonly current: 'load' | 'meter';
}

/** What a reading of this kind puts on the circuit, and where its answer appears. */
export function probe(bench: Workbench, setUp: SetUp, reading: Reading): Probe | undefined {
  const bridges = attachedBy(bench, setUp);
  const present = bench.presence(setUp);
  const plain = { present, unpowered: undefined, current: 'load' } as const;
  switch (reading.kind) {
    case 'volts': {
      const [a, b] = [node(bench, reading.red), node(bench, reading.black)];
      const quantity = { a, b, scale: 1, magnitude: false, load: undefined };
      const law = reading.mode === 'low impedance' ? LOW_IMPEDANCE_VOLTMETER : VOLTMETER;
      const load =
        reading.mode === 'loaded' ? [{ a, b, law: testLamp('filament', bench.circuit.nominalVolts) }] : [];
      return { ...plain, kind: 'volts', added: [...bridges, { a, b, law }, ...load], quantity };
    }
    case 'ohms':
    case 'continuity': {
      const [a, b] = [node(bench, reading.red), node(bench, reading.black)];
      return {
        kind: reading.kind,
        present,
        added: [...bridges, { a: b, b: a, law: ohmmeter(OHMMETER_VOLTS) }],
        unpowered: [...bridges, { a: b, b: a, law: ohmmeter(0) }],
        quantity: { a, b, scale: 1, magnitude: false, load: undefined },
        current: 'meter',
      };
    }
    case 'test lamp': {
      const [a, b] = [node(bench, reading.red), node(bench, reading.black)];
      const volts = bench.circuit.nominalVolts;
      const seen = reading.lamp === 'LED' ? 'LED' : 'lamp';
      const quantity = { a, b, scale: volts, magnitude: true, load: undefined, seen } as const;
      return {
        ...plain,
        kind: 'test lamp',
        added: [...bridges, { a, b, law: testLamp(reading.lamp, volts) }],
        quantity,
      };
    }
    case 'amps': {
      const element = bench.network.elements[openedAt(bench, reading.at)]!;
      const { a, b } = element;
      const opened = present.slice();
      opened[element.index] = 0;
      const quantity = { a, b, scale: AMMETER_OHMS, magnitude: true, load: undefined };
      return {
        ...plain,
        kind: 'amps',
        present: opened,
        added: [...bridges, { a, b, law: AMMETER }],
        quantity,
      };
    }
    case 'clamp': {
      const element = bench.network.elements[aroundAt(bench, reading.at)]!;
      const { a, b, index } = element;
      const quantity = { a, b, scale: 1, magnitude: true, load: undefined, through: index };
      return { ...plain, kind: 'clamp', added: bridges, quantity };
    }
    case 'fuse lamp': {
      // The hanging of the lamp was undone since: what was seen belongs to no set-up any more.
      if (!setUp.lamps.has(reading.part)) return undefined;
      const [from, to] = lampEnds(bench.circuit, reading.part);
      const [a, b] = [node(bench, from), node(bench, to)];
      const scale = bench.circuit.nominalVolts;
      const quantity = { a, b, scale, magnitude: true, load: undefined, seen: 'lamp' } as const;
      return { ...plain, kind: 'fuse lamp', added: bridges, quantity };
    }
    case 'scan': {
      const scan = scanOf(bench, reading);
      if (scan === undefined) return undefined;
      // The question itself wakes a module that slept.
      const asked = { ...plain, present: bench.presence(awake(setUp)), added: bridges };
      return reading.value === 'no answer'
        ? { ...asked, kind: 'answer', quantity: insideElement(bench, scan.supply) }
        : { ...asked, kind: 'scan', quantity: insideElement(bench, scan.element) };
    }
    case 'load': {
      const load = bench.network.loads.get(reading.load)!;
      const { a, b } = bench.network.elements[load.element]!;
      // An LED needs its volts the right way round.
      const magnitude = load.kind !== 'LED';
      const quantity = {
        a,
        b,
        scale: load.ratedVolts,
        magnitude,
        load: load.element,
        seen: load.kind,
      };
      return { ...plain, kind: 'load', added: bridges, quantity };
    }
    case 'look':
      return undefined;
  }
}

function insideElement(bench: Workbench, index: number): Quantity {
  const { a, b } = bench.network.elements[index]!;
  return { a, b, scale: 1, magnitude: false, load: undefined, inside: index };
}

/** Element around which a clamp sits: the wire itself, or the contact at a terminal or pin. */
function aroundAt(bench: Workbench, at: string): number {
  const { network, circuit } = bench;
  const found = network.sites.get(at) ?? network.sites.get(at.replace(/[hci]$/, ''));
  if (found === undefined) throw new Error(`nothing to put a clamp around at ${at} in circuit ${circuit.id}`);
  return found;
}

/** Element that an in-line ammeter replaces: the contact named, or the contact at a wire's first end. */
function openedAt(bench: Workbench, at: string): number {
  const { network, circuit } = bench;
  const direct = network.sites.get(at);
  if (direct !== undefined && network.elements[direct]!.owner === 'position') return direct;
  const pin = network.sites.get(at.replace(/[hci]$/, ''));
  if (pin !== undefined) return pin;
  const wire = circuit.wires.find((candidate) => candidate.id === at);
  if (wire !== undefined) {
    const joint =
      network.sites.get(wire.from.replace(/[hci]$/, '')) ?? network.sites.get(`${wire.from}/${wire.id}`);
    if (joint !== undefined) return joint;
  }
  throw new Error(`no contact to open for an ammeter at ${at} in circuit ${circuit.id}`);
}

/**
 * Every question that a finding puts to the network: the reading, that a module answered at all, and the battery volts typed
 * beside it.
 */
export function observe(bench: Workbench, finding: Finding, others: readonly Finding[]): Observation[] {
  const asked = probe(bench, finding.setUp, finding.reading);
  if (asked === undefined) return [];
  const battery = sourceFor(bench, finding, others);
  const silent = asked.kind === 'answer';
  const { low, high } = silent
    ? answerBand(bench, finding.reading as ScanReading)
    : agrees(bench, finding.reading);
  const trusted = finding.evidence !== 'told' && finding.proved;
  // No answer may lie in the data line or the tool, which the drawing need not show: it only ranks.
  const hard = trusted && !silent;
  const observations: Observation[] = [
    {
      ...asked,
      finding: finding.number,
      setUp: finding.setUp,
      ...battery,
      low,
      high,
      shown: shownAs(finding.reading),
      hard,
      ...heardIn(bench, finding),
    },
  ];
  if (asked.kind === 'scan') {
    const reading = finding.reading as ScanReading;
    // Fed the wrong way round the network takes a module to be awake as well: that is for no reading to rule out.
    const quantity = { ...insideElement(bench, scanOf(bench, reading)!.supply), magnitude: true };
    observations.push({
      ...observations[0]!,
      kind: 'answer',
      quantity,
      ...answerBand(bench, reading),
      shown: 'an answer',
    });
  }
  if (finding.battery !== undefined) {
    const { value, step } = finding.battery;
    const error = voltsError(value, step);
    observations.push({
      ...asked,
      finding: finding.number,
      kind: 'battery',
      setUp: finding.setUp,
      source: sourceLaw(bench.network, bench.circuit.nominalVolts, finding.setUp.engine),
      pinned: false,
      quantity: {
        a: node(bench, 'bat+'),
        b: node(bench, 'bat-'),
        scale: 1,
        magnitude: false,
        load: undefined,
      },
      low: value - error,
      high: value + error,
      shown: `${figure(value)} V at the battery`,
      hard,
      current: 'load',
      unpowered: undefined,
    });
  }
  return observations;
}

/** What a click, or none, tells of the contacts; of a rattle or another kind of load nothing. */
function heardIn(bench: Workbench, { number, reading }: Finding): { heard?: readonly Armature[] } {
  if (reading.kind !== 'load' || (reading.value !== 'clicks' && reading.value !== 'silent')) return {};
  const bit = bench.network.coils.indexOf(bench.network.loads.get(reading.load)!.element);
  return bit < 0 ? {} : { heard: [{ finding: number, bit, pulled: reading.value === 'clicks' }] };
}
