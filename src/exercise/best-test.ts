/** The test that the program itself would do now with the tools at hand, and what any other one is worth beside it. */
import type { Diagnosis } from '../diagnosis/diagnosis-types.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Candidate } from '../planning/candidate.js';
import { Costs } from '../planning/cost.js';
import { repairMinutes } from '../planning/costs-of.js';
import { forecasterOf } from '../planning/forecast.js';
import { GainMeter } from '../planning/gain.js';
import { suggest } from '../planning/next.js';
import { questionOf } from '../planning/questions.js';
import type { Suggestion } from '../planning/suggestion.js';
import { Scales } from '../planning/weigh.js';
import type { Case } from '../session/case.js';
import type { Event, Reading } from '../session/events.js';
import type { SetUp } from '../session/setup.js';
import type { Tool } from './exercise.js';
import { costOf, placesRead } from './ledger.js';
import { toolFor, toolOfAction } from './student-line.js';

/** Suggestions passed over for want of a tool before nothing is suggested at all. */
const MOST_PASSED = 6;
/** Suspects that share the last half percent of the weight steer no choice. */
const AIM = { enough: 0.995, even: false, apart: 'repairs' } as const;
/** Minutes that opening, proving and repeating take beside a repair at the least. */
const REPEAT_MINUTES = 1;

export interface Worth {
  /** Bits about the repair. */
  readonly bits: number;
  readonly minutes: number;
  /** Bits a minute. */
  readonly value: number;
}

/** Undefined when the program would test no more. */
export function bestTest(
  bench: Workbench,
  session: Case,
  diagnosis: Diagnosis,
  tools: ReadonlySet<Tool>,
): Suggestion | undefined {
  let passed = session;
  for (let i = 0; i < MOST_PASSED; i++) {
    const list = suggest(bench, passed, diagnosis);
    const found = list.find((one) => hasTools(one, tools));
    if (found !== undefined) return found;
    if (list.length === 0) return undefined;
    const skipped = list.map(({ line }) => ({ test: line, why: 'no tool' as const }));
    passed = { ...passed, skipped: [...passed.skipped, ...skipped] };
  }
  return undefined;
}

function hasTools({ reading, actions }: Suggestion, tools: ReadonlySet<Tool>): boolean {
  const wanted = [
    toolFor({ type: 'found', reading } satisfies Event),
    ...actions.map((action) => toolOfAction(action)),
  ];
  return wanted.every((tool) => tool === undefined || tools.has(tool));
}

/** What tests and repairs are worth on what is known, all by one measure. */
export class WorthOf {
  private readonly scales: Scales;
  private readonly meter: GainMeter;
  private readonly costs: Costs;

  constructor(
    private readonly bench: Workbench,
    session: Case,
    private readonly diagnosis: Diagnosis,
  ) {
    this.scales = new Scales(bench, session, diagnosis, AIM);
    this.costs = new Costs(bench.circuit, session);
    const stakes = this.scales.likely.map(({ group, weight }, i) => ({
      version: this.scales.versionOf[i]!,
      group,
      weight,
    }));
    this.meter = new GainMeter(stakes, diagnosis.groups.length);
  }

  /** Undefined for what cannot be forecast: how a part looks. */
  test(candidate: Candidate): Worth | undefined {
    const outlook = this.scales.outlook(candidate);
    const { minutes } = this.costs.of(candidate);
    return outlook === undefined ? undefined : worth(this.meter.gain(outlook), minutes);
  }

  /** Trying a repair tells whether it was that one, too. @param share of the weight that it would cure, 0 to 1 */
  repair(share: number, repair: { readonly minutes: number; readonly price: number }): Worth {
    const rest = this.diagnosis.groups
      .map((group) => group.share)
      .reduce((sum, part) => sum + entropyPart(part), 0);
    const own = entropyPart(share) + entropyPart(1 - share);
    const minutes = repairMinutes(this.bench.circuit, repair) + REPEAT_MINUTES;
    return worth(Math.min(rest, own), minutes);
  }
}

function worth(bits: number, minutes: number): Worth {
  return { bits, minutes, value: bits / Math.max(0.05, minutes) };
}

function entropyPart(share: number): number {
  return share <= 0 || share >= 1 ? 0 : -share * Math.log2(share);
}

/** Share of the weight from which on a repair is the thing to do. */
export const PLAIN = 0.9;
/** Below this share a repair is a guess as long as a test tells something, whatever it would cost. */
const LIKELY = 0.5;
/** Bits of which a test tells hardly anything. */
const TELLS = 0.1;

/** How well a repair is founded, 0 to 1. @param test the best there is */
export function foundation(share: number, test: Worth | undefined): number {
  return test === undefined || test.bits < TELLS ? 1 : Math.min(1, share / LIKELY);
}

/** Has trying the likeliest repair become worth more than the best test? */
export function isRepairDue(
  bench: Workbench,
  session: Case,
  diagnosis: Diagnosis,
  test: Suggestion | undefined,
): boolean {
  const [top] = diagnosis.groups;
  if (top === undefined) return false;
  if (test === undefined || top.share >= PLAIN) return true;
  const worthOf = new WorthOf(bench, session, diagnosis);
  const tested = worthOf.test(candidateOf(bench, test.reading, test.setUp, wiggleOf(test)));
  if (foundation(top.share, tested) < 1) return false;
  return worthOf.repair(top.share, top.repair).value > (tested?.value ?? 0);
}

type Wiggle = Candidate['wiggle'];

export function wiggleOf({ actions }: Suggestion): Wiggle {
  const last = actions.at(-1);
  return last?.do === 'wiggle' || last?.do === 'reseat' ? last : undefined;
}

/** A reading in its set-up as the planner weighs tests. */
export function candidateOf(bench: Workbench, reading: Reading, setUp: SetUp, wiggle: Wiggle): Candidate {
  return {
    line: '',
    words: '',
    setUp,
    wiggle,
    reading,
    bare: wiggle === undefined ? costOf(reading) : 'watch',
    at: wiggle === undefined ? placesRead(bench, reading) : [wiggle.at],
  };
}

/** Do the two ask the same of the vehicle? */
export function sameQuestion(
  bench: Workbench,
  one: Pick<Candidate, 'setUp' | 'reading'>,
  other: Pick<Candidate, 'setUp' | 'reading'>,
): boolean {
  const forecaster = forecasterOf(bench);
  return (
    questionOf(bench, forecaster, one.setUp, one.reading) ===
    questionOf(bench, forecaster, other.setUp, other.reading)
  );
}
