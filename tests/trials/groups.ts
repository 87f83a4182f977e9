/**
 * Which faults are one group: those that no test a person may do tells apart on the vehicle. Two faults are apart when some
 * reading differs by more than three meter errors over twenty draws of part values. What a test disturbs may come good by it.
 */
import type { Suspect } from '../../src/diagnosis/diagnosis-types.js';
import type { Fault } from '../../src/diagnosis/faults.js';
import { ledBand, sightBand, WORDS } from '../../src/diagnosis/sights.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import {
  ampsError,
  clampError,
  LEAD_OHMS,
  ohmmeterReads,
  ohmsError,
  voltsError,
} from '../../src/network/meters.js';
import type { AppliedFault } from '../../src/network/solver-types.js';
import type { Ngspice } from '../oracle/ngspice.js';
import type { Ailing, Question, Span } from './predictions.js';
import { DRAWS, Predictions } from './predictions.js';
import { isTouched } from './touched.js';

const METER_ERRORS = 3;
/** Ohms above this show as OL. */
const OVERLOAD = 2e6;
/** Severities tried over what is left of a suspect's range, to find the one most like the truth. */
const TRIED = 7;
/** Readings that are followed up over the draws, those that differ most first. */
const FOLLOWED = 12;
/** Vehicles that have a first look at a reading, beside the nominal one. */
const FEW_DRAWS = 3;

/** A fault as it is, or as a suspect would have it. */
export interface Set {
  readonly id: string;
  readonly faults: readonly { readonly fault: Fault; readonly severity: number }[];
  /** Fuses that are open, as a mask. */
  readonly blown: number;
}

type Version = Pick<Set, 'faults' | 'blown'>;

/** A suspect with what it may have done to the fuses, as the findings leave it. */
export interface Left {
  readonly suspect: Suspect;
  /** Masks of the fuses that may be open. */
  readonly blown: readonly number[];
}

export class Groups {
  private readonly predictions: Predictions;

  constructor(
    private readonly bench: Workbench,
    ngspice: Ngspice | undefined,
  ) {
    this.predictions = new Predictions(bench, ngspice);
  }

  /**
   * The reading that tells a suspect, at whichever severity is left to it, from the truth; undefined when none does.
   * @param checked have ngspice confirm the reading
   */
  async apart(
    truth: Set,
    left: Left,
    questions: readonly Question[],
    checked: boolean,
  ): Promise<Question | undefined> {
    if (idOf(left) === truth.id) return undefined;
    const real: Version = { faults: truth.faults, blown: truth.blown };
    const spans = questions.map((question) => this.nominal(question, real));
    const likest = this.likest(spans, left, truth, questions);
    for (const at of likest.order.slice(0, FOLLOWED)) {
      const question = questions[at]!;
      const drawn = [real, likest.version].map((version) =>
        hull(this.ways(question, version).map((way) => this.predictions.drawn(question, way))),
      );
      if (this.gap(question, drawn[0], drawn[1]) <= METER_ERRORS) continue;
      if (!checked) return question;
      // Few draws first: what they do not tell apart, more of them tell apart less.
      if (
        (await this.isApart(question, real, likest.version, FEW_DRAWS)) &&
        (await this.isApart(question, real, likest.version, DRAWS))
      )
        return question;
    }
    return undefined;
  }

  private nominal(question: Question, version: Version): Span | undefined {
    return hull(this.ways(question, version).map((way) => this.predictions.nominal(question, way)));
  }

  private async isApart(question: Question, one: Version, other: Version, draws: number): Promise<boolean> {
    const both: (Span | undefined)[] = [];
    for (const version of [one, other]) {
      const spans: (Span | undefined)[] = [];
      for (const way of this.ways(question, version))
        spans.push(await this.predictions.reference(question, way, draws));
      both.push(hull(spans));
    }
    return this.gap(question, both[0], both[1]) > METER_ERRORS;
  }

  /** With every fault as it is; and without each that the test disturbs, which may come good by that. */
  private ways(question: Question, { faults, blown }: Version): readonly Ailing[] {
    const { circuit } = this.bench;
    const lists = faults.reduce<AppliedFault[][]>(
      (before, { fault, severity }) => {
        const there = before.map((list) => [...list, fault.apply(severity)]);
        return isTouched(circuit, question.setUp, fault) ? [...there, ...before] : there;
      },
      [[]],
    );
    return lists.map((list) => ({ faults: list, blown }));
  }

  /** The severity of a suspect that comes nearest to the truth, and the readings that still differ, worst first. */
  private likest(
    spans: readonly (Span | undefined)[],
    left: Left,
    truth: Set,
    questions: readonly Question[],
  ): { version: Version; order: readonly number[] } {
    let best: { version: Version; order: readonly number[]; worst: number } | undefined;
    // What told the last version from the truth mostly tells the next one too: those readings first.
    let turns = [...questions.keys()];
    for (const version of this.versions(left, truth)) {
      const gaps: number[] = [];
      let worst = 0;
      for (const i of turns) {
        gaps[i] = this.gap(questions[i]!, spans[i], this.nominal(questions[i]!, version));
        worst = Math.max(worst, gaps[i]!);
        if (best !== undefined && worst >= best.worst) break;
      }
      if (best !== undefined && worst >= best.worst) continue;
      turns = [...turns].sort((i, j) => gaps[j]! - gaps[i]!);
      const order = turns.filter((i) => gaps[i]! > METER_ERRORS);
      best = { version, order, worst };
      if (order.length === 0) break;
    }
    return best!;
  }

  private *versions({ suspect, blown }: Left, truth: Set): Generator<Version> {
    const byId = new Map(this.bench.faults.map((fault) => [fault.id, fault]));
    const axes = suspect.faults.map(({ id }, i) => {
      const fault = byId.get(id)!;
      const severities = severitiesOf(fault, suspect.severities[i], truth, suspect.faults.length > 1);
      return severities.map((severity) => ({ fault, severity }));
    });
    const all = axes.reduce<Set['faults'][]>(
      (lists, axis) => lists.flatMap((before) => axis.map((one) => [...before, one])),
      [[]],
    );
    for (const faults of all) for (const mask of blown) yield { faults, blown: mask };
  }

  /** By how many meter errors two predictions differ; words count as apart when none fits both. */
  private gap({ reading }: Question, one: Span | undefined, other: Span | undefined): number {
    if (one === undefined || other === undefined) return 0;
    const [lower, upper] = one.high < other.high ? [one, other] : [other, one];
    const between = upper.low - lower.high;
    if (between <= 0) return 0;
    switch (reading.kind) {
      case 'volts':
        return between / voltsError(upper.low, 0.01);
      case 'amps':
        return between / ampsError(upper.low, 0.01);
      case 'clamp':
        return between / clampError(upper.low, 0.01);
      case 'ohms': {
        const [low, high] = [lower.high, upper.low].map((volts) => Math.min(ohmmeterReads(volts), OVERLOAD));
        return Math.max(0, high! - low! - LEAD_OHMS) / ohmsError(high!, 0.1);
      }
      case 'load': {
        const { kind } = this.bench.network.loads.get(reading.load)!;
        return shareWord(WORDS[kind], (word) => sightBand(kind, word), lower, upper) ? 0 : 2 * METER_ERRORS;
      }
      case 'test lamp':
      case 'fuse lamp': {
        const led = reading.kind === 'test lamp' && reading.lamp === 'LED';
        const words = ['lit', 'dim', 'off'] as const;
        return shareWord(words, led ? ledBand : (word) => sightBand('lamp', word), lower, upper)
          ? 0
          : 2 * METER_ERRORS;
      }
      default:
        return 0;
    }
  }
}

function shareWord<W>(words: readonly W[], band: (word: W) => Span, one: Span, other: Span): boolean {
  return words.some((word) => {
    const { low, high } = band(word);
    return [one, other].every((span) => span.low <= high && span.high >= low);
  });
}

/** Names of all faults that are there, in one order. */
export function idOf({ suspect }: Pick<Left, 'suspect'>): string {
  return suspect.faults
    .map(({ id }) => id)
    .sort()
    .join(' + ');
}

/** Everything that any of them may read; undefined where one cannot be told. */
function hull(spans: readonly (Span | undefined)[]): Span | undefined {
  if (spans.includes(undefined)) return undefined;
  const all = spans as readonly Span[];
  return { low: Math.min(...all.map(({ low }) => low)), high: Math.max(...all.map(({ high }) => high)) };
}

/** Severities that are left to a suspect, likest first. */
function severitiesOf(
  fault: Fault,
  fitted: Suspect['severities'][number],
  truth: Set,
  few: boolean,
): readonly number[] {
  const { edges, unit } = fault.scale;
  if (unit === 'none') return [0];
  const low = Math.max(fitted?.low ?? edges[0]!, edges[0]!);
  const high = Math.min(fitted?.high ?? edges.at(-1)!, edges.at(-1)!);
  const inside = (severity: number) => Math.min(high, Math.max(low, severity));
  const same = truth.faults
    .filter((other) => other.fault.scale.unit === unit)
    .map(({ severity }) => inside(severity));
  const own = fitted === undefined ? [] : [inside(fitted.value)];
  const count = few ? 3 : TRIED;
  const spread = Array.from({ length: count }, (_, i) => {
    const part = i / (count - 1);
    return low > 0 ? low * (high / low) ** part : low + (high - low) * part;
  });
  return [...new Set([...same, ...own, ...spread])];
}
