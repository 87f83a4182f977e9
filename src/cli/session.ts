/**
 * A session at work: its events, where new ones are written to, and what the reasoner says about them, worked out only when
 * somebody asks and only once for each state.
 */
import type { Circuit } from '../circuit/circuit.js';
import { assess } from '../planning/assess.js';
import type { Alike, Diagnosis } from '../diagnosis/diagnosis-types.js';
import { weakLinks, type WeakLink } from '../diagnosis/drop-one.js';
import { createWorkbench, type Workbench } from '../diagnosis/workbench.js';
import { alike } from '../planning/alike.js';
import type { Caution } from '../planning/cautions.js';
import { secondFusesOfSession } from '../planning/second-fuse.js';
import { cautionsOfSession } from '../planning/step-cautions.js';
import { advise, type Advice } from '../planning/next.js';
import { previewOf, type NoPreview } from '../planning/preview.js';
import type { Suggestion } from '../planning/suggestion.js';
import type { Case } from '../session/case.js';
import { nextNumber } from '../session/decide.js';
import type { Event, Recorded } from '../session/events.js';
import { foldCase } from '../session/fold.js';
import type { Judgement } from '../session/judgement.js';
import { judgementOf } from '../report/judgement-of.js';
import { PROGRAM } from './version.js';

/** Takes events and gives them back with their numbers once they are safe. A journal is one. */
export interface Recorder {
  /** Names the session as far as it is recorded. */
  readonly hash: string;
  /** @param judged what is concluded with these events, kept beside the last of them */
  append(events: readonly Event[], at: string, judged?: Judgement): Promise<readonly Recorded[]>;
  close(): Promise<void>;
}

/** The circuit file as it was read: SHA-256 and text. */
export interface Drawn {
  readonly hash: string;
  readonly source: string;
}

/** Groups with less than this share are not worth a look of their own. */
const WORTH_LOOKING = 0.02;

export class Session {
  #recorded: readonly Recorded[];
  #bench: Workbench | undefined;
  #case: Case | undefined;
  #diagnosis: Diagnosis | undefined;
  #advice: Advice | undefined;

  #weakLinks: readonly WeakLink[] | undefined;
  #alike: readonly Alike[] | undefined;
  #circuit: Circuit;
  #drawn: Drawn | undefined;

  constructor(
    circuit: Circuit,
    recorded: readonly Recorded[],
    private readonly recorder: Recorder,
    /** Time of now, ISO 8601; empty where a session has no clock. */
    private readonly clock: () => string,
    /** The circuit's file, and a workbench that was made for it before. */
    { drawn, bench }: { readonly drawn?: Drawn; readonly bench?: Workbench } = {},
  ) {
    this.#drawn = drawn;
    this.#bench = bench;
    this.#circuit = circuit;
    this.#recorded = recorded;
  }

  /** The drawing that counts now; `redraw` changes it. */
  get circuit(): Circuit {
    return this.#circuit;
  }

  get recorded(): readonly Recorded[] {
    return this.#recorded;
  }

  get hash(): string {
    return this.recorder.hash;
  }

  get case(): Case {
    return (this.#case ??= foldCase(this.circuit, this.#recorded));
  }

  get diagnosis(): Diagnosis {
    return (this.#diagnosis ??= assess(this.bench, this.case, { fit: true }));
  }

  /** Every pair judged, and threes where no pair fits: only this can call a part cleared. Takes minutes on a large circuit. */
  thorough(): Diagnosis {
    return (this.#diagnosis = assess(this.bench, this.case, { fit: true, allPairs: true }));
  }

  /** Findings on which the answer hangs; none once the repair is verified. Takes as long as a diagnosis for each finding. */
  get weakLinks(): readonly WeakLink[] {
    if (this.diagnosis.verified || !this.diagnosis.abnormal) return [];
    return (this.#weakLinks ??= weakLinks(this.bench, this.case));
  }

  /** Groups of suspects that no reachable test tells apart and that weigh enough to be looked at. */
  get alike(): readonly Alike[] {
    return (this.#alike ??= alike(this.bench, this.case, this.diagnosis).filter(({ faults }) => {
      const ids = new Set(faults.map(({ id }) => id));
      const own = this.diagnosis.suspects.filter((one) => one.faults.every(({ id }) => ids.has(id)));
      return own.reduce((sum, { share }) => sum + share, 0) >= WORTH_LOOKING;
    }));
  }

  /** Every caution that what was done and read called for, in the order of first need; second fuses at the end. */
  get cautions(): readonly Caution[] {
    return [
      ...cautionsOfSession(this.circuit, this.#recorded),
      ...secondFusesOfSession(this.bench, this.#recorded),
    ];
  }

  /** The tests best first, without those that somebody could not do, and a repair where trying it is sooner. */
  get advice(): Advice {
    if (this.#advice === undefined) {
      const skipped = new Set(this.case.skipped.map((one) => one.test));
      const { tests, attempt } = advise(this.bench, this.case, this.diagnosis);
      this.#advice = { tests: tests.filter((one) => !skipped.has(one.line)), attempt };
    }
    return this.#advice;
  }

  get suggestions(): readonly Suggestion[] {
    return this.advice.tests;
  }

  /** What a test of the person's own would bring; nothing is recorded. */
  preview(line: string, events: readonly Event[]): Suggestion | NoPreview {
    return previewOf(this.bench, this.case, this.diagnosis, line, events);
  }

  /** What is concluded now, or once these events are recorded too. */
  judgement(events: readonly Event[] = []): Judgement {
    const recorded = [...this.#recorded];
    for (const event of events) recorded.push({ number: nextNumber(recorded), at: '', event });
    const same = events.every(({ type }) => type === 'closed' || type === 'paused');
    const session = same ? this.case : foldCase(this.circuit, recorded);
    const diagnosis = same ? this.diagnosis : assess(this.bench, session, { fit: true });
    const { hash, source } = this.#drawn ?? { hash: this.case.circuit.hash, source: undefined };
    const kept = this.#recorded.some(
      ({ judged }) => judged !== undefined && 'drawing' in judged && judged.drawing.hash === hash,
    );
    return judgementOf({
      circuit: this.circuit,
      session,
      diagnosis,
      program: PROGRAM,
      drawing: { hash, ...(kept || source === undefined ? {} : { text: source }) },
      next: same ? this.#advice?.tests[0]?.line : undefined,
    });
  }

  /**
   * Records the events; returns once they are safe. `judged`: what is concluded with them is kept beside the last, except in an
   * exercise, whose journal the student may read.
   */
  async record(
    events: readonly Event[],
    { judged = false }: { readonly judged?: boolean } = {},
  ): Promise<readonly Recorded[]> {
    const exercise = this.recorded.some(({ event }) => event.type === 'exercise');
    const judgement = judged && !exercise ? this.judgement(events) : undefined;
    const added = await this.recorder.append(events, this.clock(), judgement);
    this.#recorded = [...this.#recorded, ...added];
    this.#forget();
    return added;
  }

  /** Records that the drawing was corrected; from here on the findings are judged by the new one. */
  async redraw(
    drawn: {
      readonly circuit: Circuit;
      readonly hash: string;
      readonly file: string;
      readonly source: string;
    },
    words: string,
  ): Promise<readonly Recorded[]> {
    const { circuit, hash, file } = drawn;
    const added = await this.record([{ type: 'redrawn', circuit: { id: circuit.id, hash, file }, words }]);
    this.#circuit = circuit;
    this.#drawn = drawn;
    this.#bench = undefined;
    this.#forget();
    return added;
  }

  #forget(): void {
    this.#case = undefined;
    this.#diagnosis = undefined;
    this.#advice = undefined;
    this.#weakLinks = undefined;
    this.#alike = undefined;
  }

  close(): Promise<void> {
    return this.recorder.close();
  }

  /** The circuit made ready for reasoning. */
  get bench(): Workbench {
    return (this.#bench ??= createWorkbench(this.circuit));
  }
}

/** Keeps events in memory only: for the demo, and for sessions that are only looked at. */
export function memoryRecorder(hash: string, start = 0): Recorder {
  let number = start;
  return {
    hash,
    append: (events, at, judged) =>
      Promise.resolve(
        events.map((event, index) => ({
          number: ++number,
          at,
          event,
          ...(judged !== undefined && index === events.length - 1 ? { judged } : {}),
        })),
      ),
    close: () => Promise.resolve(),
  };
}
