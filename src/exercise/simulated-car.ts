/**
 * A simulated vehicle: part values drawn inside tolerance, hidden faults that drift, come and go, relays and fuses that remember.
 * What works out its voltages comes from outside, so that our solver and an independent one can stand behind the same vehicle.
 */
import { standingOf } from '../diagnosis/evidence.js';
import { canBlow } from '../diagnosis/faults.js';
import { placedFaults } from '../diagnosis/fitted.js';
import { probe } from '../diagnosis/observe.js';
import type { Probe } from '../diagnosis/observe.js';
import type { Workbench } from '../diagnosis/workbench.js';
import { LIVE_VOLTS } from '../network/meters.js';
import type { Law, Network } from '../network/network.js';
import { BATTERY_NEGATIVE, BODY } from '../network/network.js';
import { sourceElement } from '../network/conditions.js';
import type { AddedElement, AppliedFault } from '../network/solver-types.js';
import { touches } from '../session/actions.js';
import type { Action, Reading } from '../session/events.js';
import type { SetUp } from '../session/setup.js';
import type { Alteration } from './alterations.js';
import type { Answer, Car } from './car.js';
import { FuseItems } from './fuse-items.js';
import type { HiddenFault } from './hidden-faults.js';
import { amperes, inForce, isDark, ownVolts } from './element-current.js';
import { mendedBy } from './mends.js';
import { brightest, effectiveOf, meanOf } from './phases.js';
import type { Phase } from './phases.js';
import { drawPartValues } from './part-values.js';
import type { Decided, Physics } from './physics.js';
import type { Instrument } from './instrument.js';
import type { Draw } from './random.js';
import { around } from './random.js';
import type { Reported, Watched } from './read-out.js';
import { readOut, typedVolts } from './read-out.js';
import type { Settled } from './switching.js';
import { Switching } from './switching.js';

/** Contacts drift between two readings by up to this part; the program allows for more (DRIFT). */
const DRIFTS = 0.13;
/** The battery moves by up to this many volts from one moment to the next. */
const BATTERY_MOVES = 0.05;
/** Chance that a fault that comes and goes changes when its place is touched, and when it is left alone. */
const CHANGES = { touched: 0.5, alone: 0.04 };
/** A disturbed contact is better or worse by up to this factor. */
const DISTURBED = 2;

/**
 * Damp dirt between body and battery negative. Felt only where every ground of the battery is open, and there no vehicle floats
 * as freely as a drawing does; it also spares other solvers a network without digits.
 */
const DAMP: AddedElement = {
  a: BODY,
  b: BATTERY_NEGATIVE,
  law: { kind: 'ohms', ohms: 1e7, low: 1e7, high: 1e7 },
};

export interface Hidden extends HiddenFault {
  /** Severity now: a contact that was disturbed has another one. */
  readonly now: number;
  readonly away: boolean;
}

interface State {
  readonly fault: HiddenFault['fault'];
  readonly comesAndGoes: boolean;
  readonly drawn: number;
  now: number;
  drift: number;
  away: boolean;
  touched: boolean;
}

/** A valve is heard to go to and fro when its volts fall to less than this part of what they were (our own figure). */
const SWING = 0.5;

export class SimulatedCar implements Car {
  private readonly network: Network;
  private readonly switching: Switching;
  private readonly charge: number;
  private faults: State[];
  private batteryMoves = 0;
  private pulledIn = 0;
  private blown = 0;
  private fitted: SetUp['fitted'] = new Map();
  private readonly fuses: FuseItems;
  /** Voltages of this moment, by what is attached. */
  private known = new Map<string, Settled>();

  /**
   * @param corners every part value at an edge of its tolerance
   * @param instrument the meter; left out = each reading errs for itself
   */
  constructor(
    private readonly bench: Workbench,
    private readonly physics: Physics,
    private readonly draw: Draw,
    faults: readonly HiddenFault[],
    corners: boolean,
    private readonly alteration?: Alteration,
    private readonly instrument?: Instrument,
  ) {
    const { network, duties } = drawPartValues(bench.network, draw, corners);
    this.network = network;
    this.fuses = new FuseItems(network);
    this.switching = new Switching(network, duties, draw);
    this.charge = draw();
    this.faults = faults.map(({ fault, severity, comesAndGoes }) => ({
      fault,
      comesAndGoes,
      drawn: severity,
      now: severity,
      drift: 1,
      away: false,
      touched: false,
    }));
    this.moment();
  }

  /** What is wrong with it now. For marking; a person in front of it does not know. */
  get hidden(): readonly Hidden[] {
    return this.faults.map(({ fault, drawn, comesAndGoes, now, away }) => ({
      fault,
      severity: drawn,
      comesAndGoes,
      now,
      away,
    }));
  }

  /** Fuses that are open, as a mask. For marking. */
  get openFuses(): number {
    return this.blown;
  }

  async act(action: Action, after: SetUp): Promise<void> {
    this.blown = this.fuses.exchanged(this.blown, this.fitted, after.fitted);
    this.fitted = after.fitted;
    this.mend(action);
    const names = touches(action, this.bench.circuit);
    for (const state of this.faults) {
      const { site, part, owner, contact } = state.fault;
      const mine = names.has(part) || [...names].some((name) => name.replace(/[hci]$/, '') === site);
      if (action.do === 'operate' ? !(names.has(part) && owner === 'item') : !mine) continue;
      state.touched = true;
      if (contact && action.do !== 'operate' && this.draw() < 0.3) this.disturb(state);
    }
    this.moment();
    if (this.mayBlow()) await this.visit(after);
  }

  /** The vehicle stands in this set-up for a while: a fuse may blow. */
  async visit(setUp: SetUp): Promise<void> {
    const { added, present } = standingOf(this.bench, setUp);
    await this.settle(added, present, setUp);
  }

  /**
   * Time passes. Faults that come and go may do so, above all where something was touched. True if one did.
   * Kept apart from reading, so that a person can look again whether the complaint is still there.
   */
  wait(): boolean {
    let changed = false;
    for (const state of this.faults) {
      const chance = state.touched ? CHANGES.touched : this.faults.length === 1 ? CHANGES.alone : 0;
      if (state.comesAndGoes && this.draw() < chance) {
        state.away = !state.away;
        changed = true;
      }
      state.touched = false;
    }
    if (changed) this.moment();
    return changed;
  }

  /**
   * A place was shaken or pulled: what comes and goes there, and was touched since the last time, changes with this chance.
   * Nothing changes by itself, so that a reading in between belongs to what was seen last. True if one did.
   */
  stir(chance: number): boolean {
    let changed = false;
    for (const state of this.faults) {
      if (state.comesAndGoes && state.touched && this.draw() < chance) {
        state.away = !state.away;
        changed = true;
      }
      state.touched = false;
    }
    if (changed) this.moment();
    return changed;
  }

  /** Puts the faults back as they were before `wait` said that one had changed. */
  unwait(before: readonly Hidden[]): void {
    before.forEach(({ away }, i) => {
      this.faults[i]!.away = away;
    });
    this.moment();
  }

  async answer(setUp: SetUp, reading: Reading): Promise<Answer | undefined> {
    const asked = probe(this.bench, setUp, questionOf(reading));
    if (asked === undefined) return undefined;
    const settled = await this.settle(asked.added, asked.present, setUp);
    const { a, b, through, inside } = asked.quantity;
    const quantity = ({ volts, decided }: Phase) => {
      if (inside !== undefined) return ownVolts(decided, volts, inside);
      return through === undefined ? volts[a]! - volts[b]! : amperes(decided, volts, through);
    };
    if (asked.unpowered !== undefined) {
      const silent = await this.unpowered(asked, setUp, settled);
      if (Math.abs(silent[a]! - silent[b]!) > 0.8 * LIVE_VOLTS) return undefined;
    }
    // A meter shows some mean of the states between which a relay chatters, the same for both meters.
    const states = settled.chatter.length > 0 ? settled.chatter : [settled.phases];
    const parts = states.map(() => this.draw());
    const all = parts.reduce((sum, part) => sum + part, 0);
    const mean = (of: (phase: Phase) => number) =>
      states.length === 1
        ? meanOf(states[0]!, of)
        : states.reduce((sum, phases, i) => sum + (parts[i]! / all) * meanOf(phases, of), 0);
    const looked = asked.quantity.seen !== undefined && states.length === 1;
    const shown = looked ? brightest(settled, quantity) : mean(quantity);
    const load = this.watched(setUp, reading, settled);
    const report = this.reported(reading, settled);
    const read = readOut(this.draw, reading, asked.quantity, shown, load, report, this.instrument);
    if (read === undefined) return undefined;
    const posts = this.network.points.get('bat+')!;
    return {
      reading: read,
      battery:
        this.instrument?.show(
          'volts',
          mean(({ volts }) => volts[posts]!),
          this.draw,
        ) ??
        typedVolts(
          this.draw,
          mean(({ volts }) => volts[posts]!),
        ),
    };
  }

  /** What the eye or ear is given of a load, for such readings. */
  private watched(setUp: SetUp, reading: Reading, settled: Settled): Watched | undefined {
    if (reading.kind !== 'load') return undefined;
    const { kind, element, ratedVolts } = this.bench.network.loads.get(reading.load)!;
    let rated = ratedVolts;
    for (const fault of this.applied(setUp.fitted)) {
      if (fault.kind === 'law' && fault.element === element && 'volts' in fault.law) rated = fault.law.volts;
    }
    const { a, b } = this.network.elements[element]!;
    const across = ({ volts, decided }: Phase) =>
      isDark(decided, volts, element, rated) ? 0 : (volts[a]! - volts[b]!) / rated;
    const share = (phases: readonly Phase[]) =>
      kind === 'LED' ? Math.max(...phases.map(across)) : effectiveOf(phases, across);
    const [now, other] = [share(settled.phases), settled.flash.length > 0 ? share(settled.flash) : undefined];
    const bit = this.network.coils.indexOf(element);
    const pulled = bit < 0 ? undefined : ((settled.pulledIn >>> bit) & 1) === 1;
    // Of several relays only those whose armature moves are heard; a valve by the volts that come and go.
    const swing = settled.chatter.map((phases) => Math.abs(share(phases)));
    const chatters =
      bit < 0 ? Math.min(...swing) < SWING * Math.max(...swing) : ((settled.chattering >>> bit) & 1) === 1;
    const seen = { kind, chatters, pulled };
    return other !== undefined && Math.abs(other) > Math.abs(now)
      ? { ...seen, share: other, dark: now }
      : { ...seen, share: now, dark: other };
  }

  private reported(reading: Reading, { pulledIn }: Settled): Reported | undefined {
    if (reading.kind !== 'scan') return undefined;
    const scan = this.bench.network.scans!.get(`${reading.module}.${reading.input}`)!;
    const bit = this.network.coils.indexOf(scan.supply);
    return { scan, answers: bit >= 0 && ((pulledIn >>> bit) & 1) === 1 };
  }

  private async settle(added: readonly AddedElement[], present: Uint8Array, setUp: SetUp): Promise<Settled> {
    const decided = this.decided(added, present, setUp);
    const key = JSON.stringify([added, [...present].join(''), setUp.engine, [...setUp.fitted], this.blown]);
    let settled = this.known.get(key);
    if (settled === undefined) {
      settled = await this.switching.settle(this.physics, decided);
      if (setUp.engine === 'running' && this.discharges(settled)) {
        const giving = this.decided(added, present, setUp, true);
        settled = await this.switching.settle(this.physics, giving);
      }
      this.known.set(key, settled);
    }
    ({ pulledIn: this.pulledIn, blown: this.blown } = settled);
    return settled;
  }

  /** The posts stand below the volts inside: what the alternator gives, if anything, is not enough. */
  private discharges({ phases }: Settled): boolean {
    const { a, b } = this.network.elements[sourceElement(this.network)]!;
    return (
      meanOf(phases, ({ volts, decided }) => {
        const { law } = inForce(decided, sourceElement(this.network));
        return law.kind === 'source' ? law.volts - (volts[b]! - volts[a]!) : 0;
      }) > 0
    );
  }

  /** @param gives the battery gives a current, and has only its own ohms against that */
  private decided(added: readonly AddedElement[], present: Uint8Array, setUp: SetUp, gives = false): Decided {
    const { network, pulledIn, blown, alteration } = this;
    const source = sourceElement(network);
    const own = this.applied(setUp.fitted);
    const flat = own.some((fault) => fault.kind === 'law' && fault.element === source);
    const battery = { kind: 'law', element: source, law: this.battery(setUp, source, gives) } as const;
    const there = present.slice();
    for (const element of alteration?.absent ?? []) there[element] = 0;
    return {
      network,
      added: [...added, DAMP, ...(alteration?.added ?? [])],
      variant: { present: there, faults: flat ? own : [battery, ...own], blown },
      pulledIn,
      blown,
    };
  }

  private async unpowered(asked: Probe, setUp: SetUp, { pulledIn, blown }: Settled): Promise<Float64Array> {
    const decided = this.decided(asked.unpowered!, asked.present, setUp);
    const [volts] = await this.physics.volts([{ ...decided, pulledIn, blown }]);
    return volts!;
  }

  private applied(fitted: SetUp['fitted']): readonly AppliedFault[] {
    const own = this.faults.flatMap(({ fault, now, drift, away }) =>
      away ? [] : [fault.apply(fault.contact ? now * drift : now)],
    );
    return placedFaults(this.network, fitted, [...own, ...(this.alteration?.faults ?? [])]);
  }

  /** Rested or charging, the battery stays where it was drawn in its band, but for small moves. */
  private battery(setUp: SetUp, source: number, gives: boolean): Law {
    const { source: band } = standingOf(this.bench, setUp);
    const own = this.network.elements[source]!.law;
    if (band.kind !== 'source' || own.kind !== 'source') throw new Error('a battery is a source');
    const volts = band.lowVolts + this.charge * (band.highVolts - band.lowVolts) + this.batteryMoves;
    const ohms = gives ? own.ohms : band.ohms;
    return { ...own, ohms, volts: Math.min(band.highVolts, Math.max(band.lowVolts, volts)) };
  }

  private moment(): void {
    this.known.clear();
    this.batteryMoves = BATTERY_MOVES * (2 * this.draw() - 1);
    for (const state of this.faults) state.drift = around(this.draw, DRIFTS);
  }

  private disturb(state: State): void {
    const { edges } = state.fault.scale;
    if (state.now >= edges.at(-1)!) return;
    const now = state.now * DISTURBED ** (2 * this.draw() - 1);
    state.now = Math.min(edges.at(-1)!, Math.max(edges[0]!, now));
  }

  private mayBlow(): boolean {
    return this.alteration !== undefined || this.faults.some(({ fault }) => canBlow(fault));
  }

  /** What the action repairs, and the fuse that it makes whole. */
  private mend(action: Action): void {
    const mended = new Set(mendedBy(this.bench, action).map(({ id }) => id));
    this.faults = this.faults.filter(({ fault }) => !mended.has(fault.id));
    if (action.do === 'fit new' || action.do === 'reset')
      this.blown = this.switching.closed(this.blown, action.part);
  }
}

/** A blank value of a scan must not say that there was no answer: that would be another question. */
function questionOf(reading: Reading): Reading {
  return reading.kind === 'scan' ? { ...reading, value: '' } : reading;
}
