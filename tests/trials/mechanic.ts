/** The person of a simulated session: works on the vehicle, reads it, writes everything down, asks the program what it means. */
import { assess } from '../../src/planning/assess.js';
import type { Diagnosis } from '../../src/diagnosis/diagnosis-types.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import type { Car } from '../../src/exercise/car.js';
import type { Draw } from '../../src/exercise/random.js';
import { workedMilliseconds } from './clock.js';
import { actionsBetween } from '../../src/planning/changes.js';
import { isRounded } from '../../src/planning/questions.js';
import { edit } from '../../src/session/actions.js';
import type { Case } from '../../src/session/case.js';
import type { Action, Event, Reading, Recorded } from '../../src/session/events.js';
import { foldCase } from '../../src/session/fold.js';
import { isZeroLike, modeOf } from '../../src/session/proof.js';
import { drawsLampCurrent } from '../../src/session/test-lamp.js';
import { atRest, sameSetUp } from '../../src/session/setup.js';
import type { SetUp } from '../../src/session/setup.js';

/** Chance that battery volts are typed beside a reading. */
const BATTERY_BESIDE = 0.25;
/** Looks at the display until the digits are written down. */
const MOST_TRIES = 8;
/** Asked for the digits so many times, a person writes them down at once. */
const LEARNT = 2;

export class Mechanic {
  readonly recorded: Recorded[] = [];
  setUp: SetUp;
  /** Milliseconds spent in the reasoner and on the car, for the table of times. */
  readonly spent = { diagnose: 0, car: 0 };
  /** Times that the digits were asked for. */
  private asked = 0;
  private known: { readonly at: number; readonly diagnosis: Diagnosis } | undefined;

  constructor(
    readonly bench: Workbench,
    private readonly car: Car,
    private readonly draw: Draw,
  ) {
    this.setUp = atRest(bench.circuit);
  }

  record(event: Event): number {
    const number = this.recorded.length + 1;
    this.recorded.push({ number, at: '', event });
    return number;
  }

  get case(): Case {
    return foldCase(this.bench.circuit, this.recorded);
  }

  /** What the program says now. */
  get diagnosis(): Diagnosis {
    if (this.known?.at !== this.recorded.length) {
      const started = workedMilliseconds();
      this.known = { at: this.recorded.length, diagnosis: assess(this.bench, this.case) };
      this.spent.diagnose += workedMilliseconds() - started;
    }
    return this.known.diagnosis;
  }

  get findings(): number {
    return this.case.timeline.filter((step) => step.kind === 'finding').length;
  }

  async act(action: Action): Promise<void> {
    this.record({ type: 'did', action });
    this.setUp = edit(action, this.setUp);
    await this.timed(() => this.car.act(action, this.setUp));
  }

  async moveTo(setUp: SetUp): Promise<void> {
    for (const action of actionsBetween(this.setUp, setUp)) await this.act(action);
  }

  /**
   * Takes the reading and writes it down; a zero only after the meter was proved, which costs ten seconds. Gives the event's
   * number, or undefined where the meter refused.
   */
  async read(reading: Reading): Promise<number | undefined> {
    let answer = await this.timed(() => this.car.answer(this.setUp, reading));
    if (answer === undefined) return undefined;
    const again = this.wasRounded(reading);
    if (again) this.asked += 1;
    const careful = again || this.asked >= LEARNT;
    for (let tries = 0; tries < MOST_TRIES && careful && isRounded(answer.reading); tries++)
      answer = (await this.timed(() => this.car.answer(this.setUp, reading))) ?? answer;
    const mode = modeOf(answer.reading);
    if (mode !== undefined && isZeroLike(answer.reading) && !this.case.proofs.has(mode))
      this.record({ type: 'proved', mode });
    const meter = mode === 'volts' || mode === 'test lamp' || mode === 'amps';
    // For a loaded reading it is asked for.
    const chance = drawsLampCurrent(reading) && mode === 'volts' ? 1 : BATTERY_BESIDE;
    const beside = meter && this.draw() < chance ? { battery: answer.battery } : {};
    return this.record({ type: 'found', reading: answer.reading, ...beside });
  }

  /** Was the same read before, as it stands now, and only whole volts written down? */
  private wasRounded(reading: Reading): boolean {
    const asked = (one: Reading) => JSON.stringify({ ...one, value: '' });
    return this.case.timeline.some(
      (step) =>
        step.kind === 'finding' &&
        isRounded(step.finding.reading) &&
        asked(step.finding.reading) === asked(reading) &&
        sameSetUp(step.finding.setUp, this.setUp),
    );
  }

  /** The reading as it stands in the record. */
  reading(number: number): Reading {
    const { event } = this.recorded[number - 1]!;
    if (event.type !== 'found') throw new Error(`event ${number} is no finding`);
    return event.reading;
  }

  /** The whole record, one line an event. */
  get lines(): string[] {
    return this.recorded.map(({ number, event }) => `  ${number} ${JSON.stringify(event)}`);
  }

  private async timed<T>(ask: () => Promise<T>): Promise<T> {
    const started = workedMilliseconds();
    const answer = await ask();
    this.spent.car += workedMilliseconds() - started;
    return answer;
  }
}
