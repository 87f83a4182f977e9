/**
 * The vehicle of an exercise, moved on event by event: what was done is done to it, what is asked is answered. Live and in marking
 * it goes the same way, so a journal whose readings are not its own shows.
 */
import type { Workbench } from '../diagnosis/workbench.js';
import { drivenSetUps } from '../diagnosis/evidence.js';
import { canBlow } from '../diagnosis/faults.js';
import { cautionsFor } from '../planning/cautions.js';
import { edit } from '../session/actions.js';
import type { AttemptFailed, Event, Reading, Recorded } from '../session/events.js';
import { observedOrder } from '../session/observed-order.js';
import { atRest, type SetUp } from '../session/setup.js';
import { standingAfterOne, whenSetUp } from '../session/standing.js';
import { EventDraw, mixed } from './event-draw.js';
import type { Exercise } from './exercise.js';
import { Instrument } from './instrument.js';
import { lookAt } from './looks.js';
import { pick, random } from './random.js';
import type { Hidden } from './simulated-car.js';
import { SimulatedCar } from './simulated-car.js';
import { SolverPhysics } from './solver-car.js';
import { FUSE_AGAIN, LIVE_LINE, SPARED, unsafeOf, type Unsafe } from './unsafe.js';

/** What became of an event. */
export interface Met {
  /** As it is to be recorded: a finding with the vehicle's value, or an attempt that failed. */
  readonly event: Event;
  /** What else the person notices. */
  readonly notices: readonly string[];
  readonly unsafe: Unsafe | undefined;
  /** Ids of the hidden faults that this mended, and fuses that are whole again. */
  readonly mended: readonly string[];
  /** What follows at once: it happens, and is recorded, whatever the person wants. */
  readonly then?: readonly Event[];
}

const WHY: Readonly<Partial<Record<Unsafe['id'], AttemptFailed>>> = {
  'airbag-line': 'airbag line',
  'jumper-module-output': 'module output',
};

export type Concealed = Pick<Exercise, 'faults' | 'seed'>;

/** Set-ups in which the owner drove before, enough for a short to blow its fuse. */
const DRIVEN = 8;
/** Chance that what comes and goes changes when its place is shaken. */
const SHAKEN = 0.7;

export class ExerciseVehicle {
  private car!: SimulatedCar;
  private draws!: EventDraw;
  setUp!: SetUp;
  private blownBefore = new Set<string>();

  private constructor(
    private readonly bench: Workbench,
    private readonly concealed: Concealed,
    /** Set-ups of the complaint: the owner has been in them. */
    private readonly driven: readonly SetUp[],
  ) {}

  static async begin(
    bench: Workbench,
    concealed: Concealed,
    driven: readonly SetUp[],
  ): Promise<ExerciseVehicle> {
    const vehicle = new ExerciseVehicle(bench, concealed, driven);
    await vehicle.comeIn();
    return vehicle;
  }

  get hidden(): readonly Hidden[] {
    return this.car.hidden;
  }

  /** Fuses that are open, as a mask. */
  get openFuses(): number {
    return this.car.openFuses;
  }

  /** Open fuses by part. */
  get blown(): readonly string[] {
    const { network } = this.bench;
    return network.fuses.flatMap((element, bit) =>
      (this.openFuses >>> bit) & 1 ? [network.elements[element]!.part] : [],
    );
  }

  /** Does what the event of this number says. A finding's value is not looked at: the one that comes back is the vehicle's. */
  async meet(number: number, event: Event): Promise<Met> {
    this.draws.turnTo(number);
    const plain: Met = { event, notices: [], unsafe: undefined, mended: [] };
    if (event.type === 'found') return this.answer(event);
    if (event.type === 'attempted')
      return event.why === 'live line'
        ? this.answer(asFound(event.reading))
        : { ...plain, unsafe: this.barred(event) };
    if (event.type === 'did') return this.act(event);
    return plain;
  }

  /** As after these events, those that were taken back left out: undoing is putting back what the hands did. */
  async rebuild(recorded: readonly Recorded[]): Promise<void> {
    await this.comeIn();
    for (const { number, event } of observedOrder(recorded)) await this.meet(number, event);
  }

  private async comeIn(): Promise<void> {
    const { bench, concealed } = this;
    this.setUp = atRest(bench.circuit);
    this.blownBefore = new Set();
    this.draws = new EventDraw(concealed.seed);
    this.draws.turnTo(0);
    const { draw } = this.draws;
    const instrument = new Instrument(draw);
    this.car = new SimulatedCar(
      bench,
      new SolverPhysics(),
      draw,
      concealed.faults,
      draw() < 0.25,
      undefined,
      instrument,
    );
    for (const setUp of this.driven) await this.car.visit(setUp);
    if (!concealed.faults.some(({ fault }) => canBlow(fault))) return;
    const others = drivenSetUps(bench);
    for (let i = 0; i < DRIVEN; i++) await this.car.visit(pick(draw, others));
  }

  private async answer(event: Extract<Event, { type: 'found' }>): Promise<Met> {
    const setUp = whenSetUp(event.when ?? [], this.setUp);
    const plain = { notices: [], unsafe: undefined, mended: [] };
    if (event.evidence === 'told') return { ...plain, event };
    const ids = this.cautionIds(event);
    const unsafe = unsafeOf(ids.filter((id) => id !== 'ohms-live'));
    if (unsafe !== undefined && SPARED.has(unsafe.id as (typeof ids)[number])) {
      const why = WHY[unsafe.id] ?? 'never to be probed';
      return { ...plain, unsafe, event: { type: 'attempted', reading: event.reading, why } };
    }
    if (event.reading.kind === 'look') {
      const value = lookAt(this.bench.network, event.reading.at, this.hidden, this.openFuses, (id) =>
        this.chanceOf(id),
      );
      return { ...plain, event: { ...event, reading: { ...event.reading, value } } };
    }
    const before = this.openFuses;
    const answer = await this.car.answer(setUp, event.reading);
    this.setUp = standingAfterOne(event, this.setUp);
    if (answer === undefined)
      return {
        ...plain,
        unsafe: LIVE_LINE,
        event: { type: 'attempted', reading: event.reading, why: 'live line' },
      };
    const battery = event.battery === undefined ? {} : { battery: answer.battery };
    const popped = this.newlyOpen(before).filter((fuse) => this.blownBefore.has(fuse));
    this.remember(before);
    return {
      event: { ...event, reading: answer.reading, ...battery },
      notices: popped.map((fuse) => `${fuse} blows again.`),
      unsafe,
      mended: [],
    };
  }

  private async act(event: Extract<Event, { type: 'did' }>): Promise<Met> {
    const { action } = event;
    const unsafe = unsafeOf(this.cautionIds(event));
    if (unsafe !== undefined && action.do === 'jumper' && SPARED.has(unsafe.id as 'airbag-line')) {
      const [red, black] = action.between;
      const why = WHY[unsafe.id] ?? 'never to be probed';
      const reading: Reading = { kind: 'continuity', red, black, value: 'no beep' };
      return { event: { type: 'attempted', reading, why }, notices: [], unsafe, mended: [] };
    }
    const [open, faults] = [this.openFuses, this.hidden.map(({ fault }) => fault.id)];
    this.setUp = edit(action, this.setUp);
    await this.car.act(action, this.setUp);
    const cured = faults.filter((id) => !this.hidden.some(({ fault }) => fault.id === id));
    const renewed =
      action.do === 'fit new' && this.openBefore(open).includes(action.part) ? [action.part] : [];
    this.car.stir(action.do === 'wiggle' || action.do === 'reseat' ? SHAKEN : 0);
    const notices: string[] = [];
    if (action.do === 'jumper') await this.car.visit(this.setUp);
    const popped = this.newlyOpen(action.do === 'fit new' || action.do === 'refit' ? 0 : open);
    const fitted = 'part' in action ? action.part : '';
    const then: Event[] = [];
    if (action.do === 'jumper' && unsafe?.id === 'jumper-short') {
      if (popped.length > 0) notices.push(`There is a spark: ${popped.join(' and ')} blows.`);
      else {
        notices.push('There is a spark: the fuse of the jumper lead blows. The jumper comes off.');
        then.push({ type: 'did', action: { do: 'remove jumper', between: action.between } });
      }
    }
    const again = popped.includes(fitted) && ['fit new', 'refit', 'fit known-good'].includes(action.do);
    if (again && action.do !== 'refit') notices.push(`The fuse just fitted blows at once: ${fitted}.`);
    const repeated = again && action.do !== 'refit' && this.blownBefore.has(`${fitted} new`);
    if (again) this.blownBefore.add(`${fitted} new`);
    this.remember(open);
    return {
      event,
      notices,
      unsafe: unsafe ?? (repeated ? FUSE_AGAIN : undefined),
      mended: [...cured, ...renewed],
      then,
    };
  }

  private barred({ reading }: Extract<Event, { type: 'attempted' }>): Unsafe | undefined {
    const found = unsafeOf(this.cautionIds(asFound(reading)).filter((id) => id !== 'ohms-live'));
    if (found !== undefined || !('red' in reading)) return found;
    const between = [reading.red, reading.black] as const;
    return unsafeOf(this.cautionIds({ type: 'did', action: { do: 'jumper', between } }));
  }

  private cautionIds(event: Event) {
    return cautionsFor(this.bench.circuit, this.setUp, event).map(({ id }) => id);
  }

  private openBefore(mask: number): readonly string[] {
    const { network } = this.bench;
    return network.fuses.flatMap((element, bit) =>
      (mask >>> bit) & 1 ? [network.elements[element]!.part] : [],
    );
  }

  private newlyOpen(before: number): readonly string[] {
    return this.openBefore(this.openFuses & ~before);
  }

  private remember(before: number): void {
    for (const fuse of this.newlyOpen(before)) this.blownBefore.add(fuse);
  }

  /** The same for a fault's id however often it is looked at. */
  private chanceOf(id: string): number {
    let sum = 0;
    for (const sign of id) sum = (Math.imul(sum, 31) + sign.charCodeAt(0)) >>> 0;
    return random(mixed(this.concealed.seed, sum))();
  }
}

function asFound(reading: Reading): Extract<Event, { type: 'found' }> {
  return { type: 'found', reading };
}
