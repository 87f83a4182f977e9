/**
 * An attempt under way: what is recorded, the vehicle as it stands after it, and what a typed line makes of both. Nothing is
 * recorded here; whoever runs it gives back the events once they are safe.
 */
import type { Workbench } from '../diagnosis/workbench.js';
import { decide, nextNumber, standingSetUp } from '../session/decide.js';
import type { Event, Recorded } from '../session/events.js';
import { foldCase } from '../session/fold.js';
import { undoneNumbers } from '../session/observed-order.js';
import type { Case } from '../session/case.js';
import { whenSetUp } from '../session/standing.js';
import { complainedOf, complaintSeen, toldEvents, type Complained } from './complaint-events.js';
import type { Exercise } from './exercise.js';
import { withGoodWords } from './good-words.js';
import { Insight } from './insight.js';
import { ledgerOf, sumOf, type Entry } from './ledger.js';
import { toolFor } from './student-line.js';
import { ExerciseVehicle, type Met } from './vehicle.js';

export interface Refused {
  readonly message: string;
  readonly mend: string;
}

/** A recorded event that the vehicle would not have given: the journal is not what this program wrote. */
export interface Strange {
  readonly number: number;
  readonly recorded: Event;
  readonly simulated: Event;
}

export class Run {
  private list: Recorded[] = [];
  /** What became of each event, by number. */
  readonly mets = new Map<number, Met>();
  readonly complained: readonly Complained[];
  readonly insight: Insight;
  private folded: Case | undefined;

  private constructor(
    readonly bench: Workbench,
    readonly exercise: Exercise,
    readonly vehicle: ExerciseVehicle,
    complained: readonly Complained[],
  ) {
    this.complained = complained;
    this.insight = new Insight(bench, exercise.tools);
  }

  static async begin(bench: Workbench, exercise: Exercise): Promise<Run> {
    const complained = await withGoodWords(
      bench,
      exercise.seed,
      complainedOf(bench.circuit, exercise.complaint),
    );
    const driven = complained.map(({ setUp }) => setUp);
    return new Run(bench, exercise, await ExerciseVehicle.begin(bench, exercise, driven), complained);
  }

  get recorded(): readonly Recorded[] {
    return this.list;
  }

  get case(): Case {
    return (this.folded ??= foldCase(this.bench.circuit, this.list));
  }

  /** The customer's words, to be recorded at the beginning. */
  get opening(): readonly Event[] {
    const { concern, complaint } = this.exercise;
    return [
      { type: 'concern', concern: { complaint: concern } },
      ...toldEvents(this.bench.circuit, complaint),
    ];
  }

  get ledger(): readonly Entry[] {
    const hidden = new Set(this.exercise.faults.map(({ fault }) => fault.id));
    return ledgerOf(this.bench, this.list, this.exercise.hints, hidden);
  }

  get spent(): { readonly minutes: number; readonly money: number } {
    return sumOf(this.ledger);
  }

  /** Why these drafts cannot be done in this exercise; undefined when they can. */
  refusal(drafts: readonly Event[]): Refused | undefined {
    for (const event of drafts) {
      const tool = toolFor(event);
      if (tool !== undefined && !this.exercise.tools.has(tool))
        return {
          message: `There is no ${tool === 'known-good parts' ? 'shelf of known-good parts' : tool} in this exercise`,
          mend: `There is: ${[...this.exercise.tools].join(', ')}.`,
        };
      if (event.type === 'undone') {
        const met = this.mets.get(event.number);
        if (met !== undefined && (met.notices.length > 0 || met.unsafe?.grave === true))
          return {
            message: `What came of event ${event.number} cannot be taken back`,
            mend: 'Put the vehicle right with your hands: unjumper, new F4, and so on.',
          };
      }
    }
    const decision = decide(this.bench.circuit, this.list, drafts);
    return decision.ok ? undefined : decision;
  }

  /**
   * Does the drafts to the vehicle, one after the other, and gives them as they are to be recorded, with what follows from them. They
   * must be recorded, and given back with `accept`, before anything else is met.
   */
  async meet(drafts: readonly Event[]): Promise<readonly Met[]> {
    const mets: Met[] = [];
    const soFar = [...this.list];
    const queue = [...drafts];
    for (let draft = queue.shift(); draft !== undefined; draft = queue.shift()) {
      const number = nextNumber(soFar);
      const met = await this.vehicle.meet(number, draft);
      const event = this.withSymptom(met.event, soFar);
      soFar.push({ number, at: '', event });
      mets.push({ ...met, event });
      this.mets.set(number, { ...met, event });
      queue.unshift(...(met.then ?? []));
      if (draft.type === 'did' && (draft.action.do === 'wiggle' || draft.action.do === 'reseat'))
        queue.unshift(...this.watched());
    }
    return mets;
  }

  /** They are safe now. */
  async accept(recorded: readonly Recorded[]): Promise<void> {
    this.list.push(...recorded);
    this.folded = undefined;
    if (recorded.some(({ event }) => event.type === 'undone')) await this.vehicle.rebuild(this.list);
  }

  /** Goes through a journal again, and names the first events that the vehicle would have given otherwise. */
  async again(recorded: readonly Recorded[]): Promise<readonly Strange[]> {
    const strange: Strange[] = [];
    for (const entry of recorded) {
      const met = await this.vehicle.meet(entry.number, entry.event);
      const simulated = this.withSymptom(met.event, this.list);
      if (JSON.stringify(simulated) !== JSON.stringify(entry.event))
        strange.push({ number: entry.number, recorded: entry.event, simulated });
      this.mets.set(entry.number, met);
      await this.accept([entry]);
    }
    return strange;
  }

  /** While something is moved the eyes are on the load that was complained of, where its condition stands. */
  private watched(): readonly Event[] {
    const now = this.vehicle.setUp;
    const one = this.complained.find(({ load }) => complaintSeen(this.complained, load, now) !== undefined);
    if (one === undefined) return [];
    return [{ type: 'found', reading: { kind: 'load', load: one.load, value: one.word } }];
  }

  /** A look at the load that was complained of says whether the complaint is there; said only when that changes. */
  private withSymptom(event: Event, before: readonly Recorded[]): Event {
    if (event.type !== 'found' || event.reading.kind !== 'load' || event.evidence === 'told') return event;
    const setUp = whenSetUp(event.when ?? [], this.vehicle.setUp);
    const one = complaintSeen(this.complained, event.reading.load, setUp);
    if (one === undefined) return event;
    const symptom = one.good.has(event.reading.value) ? 'absent' : 'present';
    const plain: Event = { ...event };
    delete (plain as { symptom?: unknown }).symptom;
    return foldCase(this.bench.circuit, before).symptom === symptom ? plain : { ...plain, symptom };
  }

  /** Set-up in which the event of this number happened. */
  standing(number: number) {
    return standingSetUp(this.bench.circuit, this.list, number);
  }

  /** Counts still: not taken back. */
  counts(number: number): boolean {
    return !undoneNumbers(this.list).has(number);
  }
}
