/** What the program itself makes of an attempt after any of its events: what is suspected, and the test it would do. Each is worked out once. */
import { assess } from '../planning/assess.js';
import type { Diagnosis } from '../diagnosis/diagnosis-types.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Suggestion } from '../planning/suggestion.js';
import type { Recorded } from '../session/events.js';
import { foldCase } from '../session/fold.js';
import { bestTest } from './best-test.js';
import type { Tool } from './exercise.js';

export class Insight {
  private readonly diagnoses = new Map<string, Diagnosis>();
  private readonly tests = new Map<string, Suggestion | undefined>();

  /** @param tools those that the exercise allows */
  constructor(
    private readonly bench: Workbench,
    private readonly tools: ReadonlySet<Tool>,
  ) {}

  /** @param before events of this one attempt; a grown list goes on where the diagnosis stood, so they are best asked for in order */
  diagnosis(before: readonly Recorded[]): Diagnosis {
    return remembered(this.diagnoses, before, () => assess(this.bench, foldCase(this.bench.circuit, before)));
  }

  /** Undefined when the program would test no more. @param before as in `diagnosis` */
  best(before: readonly Recorded[]): Suggestion | undefined {
    return remembered(this.tests, before, () =>
      bestTest(this.bench, foldCase(this.bench.circuit, before), this.diagnosis(before), this.tools),
    );
  }
}

/** An event of an attempt is never changed, so its number stands for it. */
function remembered<T>(known: Map<string, T>, before: readonly Recorded[], make: () => T): T {
  const key = before.map(({ number }) => number).join();
  if (!known.has(key)) known.set(key, make());
  return known.get(key)!;
}
