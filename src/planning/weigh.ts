/** Every test worth weighing with what it is expected to tell, per minute. One step ahead. */
import type { Diagnosis } from '../diagnosis/diagnosis-types.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Case } from '../session/case.js';
import type { Reading } from '../session/events.js';
import type { SetUp } from '../session/setup.js';
import { drawsLampCurrent } from '../session/test-lamp.js';
import { Agreement } from './agreement.js';
import { surroundingsOf } from './battery-known.js';
import type { Candidate } from './candidate.js';
import { candidates } from './candidates.js';
import type { Condition } from './condition.js';
import { conditionsOf, findingsOf } from './condition.js';
import type { Cost } from './cost.js';
import { Costs } from './cost.js';
import type { Forecast, Forecaster } from './forecast.js';
import { forecasterOf } from './forecast.js';
import type { Spans } from './gain.js';
import { GainMeter } from './gain.js';
import type { Likely } from './likely.js';
import { likelyFaults } from './likely.js';
import type { Span, Surroundings } from './outcome-classes.js';
import { classifierFor, hullOf } from './outcome-classes.js';
import type { Member } from './outcome-words.js';
import { askedAlready, isRounded, questionOfCandidate, undisturbed } from './questions.js';
import { figureOf, figuresIn } from './reads.js';

export interface Weighed extends Cost {
  readonly candidate: Candidate;
  /** Minutes, disturbance counted. */
  readonly effort: number;
  /** Expected bits about the repair. */
  readonly gain: number;
  /** Some outcome would rule a repair out for good. */
  readonly separates: boolean;
  /** Gain per minute, disturbance counted. */
  readonly value: number;
}

/** A test with what it would read. */
export interface Telling extends Weighed {
  readonly outlook: Spans;
}

interface Queued {
  readonly candidate: Candidate;
  readonly cost: Cost;
  /** Minutes, disturbance counted. */
  readonly effort: number;
}

/** What is to be told apart, and how hard. */
export interface Aim {
  /** Share of the weight whose suspects are looked at, 0 to 1. */
  readonly enough: number;
  /** Rare suspects count more than their weight, so that the last ones are told apart too. */
  readonly even: boolean;
  readonly apart: 'repairs' | 'suspects';
}

/** What a test would read with each version. */
export interface Outlook extends Spans {
  readonly figures: Float64Array;
}

/** Disturbing something costs evidence: as if the test took this much longer. */
export const DISTURBANCE = 1.15;
/** More bits than this hardly any one reading gives: dearer tests are not worked out once a cheap one is this good. */
const HOPED_BITS = 1.5;
/** Bits below which a test that rules nothing out for good tells nothing. */
const LEAST_GAIN = 0.02;

/**
 * Forecasts looked at, tests times versions, before the best so far is taken: the cheapest tests come first, and only a large circuit
 * of which nearly everything is still suspected gets so far.
 */
const MOST_FORECASTS = 250_000;

/** Tests so much worse per minute than the best are looked at too: planned ahead one of them may come first. */
const WORSE = 0.3;

/** Solves, tests times versions, after which no further test is looked at when planning; fewer where many loads make each take longer. */
const MOST_SOLVES = 2500;
const USUAL_LOADS = 15;
/** Bits a minute below which it is worth looking so much further. */
const POOR = 0.3;
const PATIENT = 6;
/** Parts of a solve: a probe in a set-up that is solved already. */
const OHMS_WORK = 0.5;
const READ_WORK = 0.02;

export class Scales {
  readonly likely: readonly Likely[];
  private readonly conditions: readonly Condition[];
  /** The versions that read differently, and for each likely fault which of them it is. */
  private readonly versions: readonly Likely[];
  readonly versionOf: Int32Array;
  private readonly meter: GainMeter;
  private readonly forecaster: Forecaster;
  private readonly surroundings: Surroundings;
  private readonly forecasts = new Map<string, readonly Forecast[]>();
  /** What was read so far, with what each version would have read. */
  private answered: readonly { readonly kind: Reading['kind']; readonly outlook: Outlook }[] | undefined;

  constructor(
    private readonly bench: Workbench,
    private readonly session: Case,
    private readonly diagnosis: Diagnosis,
    { enough, even, apart }: Aim,
  ) {
    this.conditions = conditionsOf(bench, session, diagnosis);
    this.forecaster = forecasterOf(bench, session);
    this.surroundings = surroundingsOf(bench, session);
    const agreement = new Agreement(bench, session, this.forecaster, this.surroundings);
    const failed = this.conditions[0]?.setUp ?? session.now;
    this.likely = likelyFaults(bench, diagnosis, enough, {
      misfits: (version) => agreement.misfits(version),
      blownBy: (version) => this.forecaster.blownBy(version, failed),
    });
    const numbers = new Map<string, number>();
    const versions: Likely[] = [];
    this.versionOf = Int32Array.from(this.likely, (likely) => {
      // Wiggling tells places apart that read alike.
      const key = `${likely.key}|${likely.at.join()}|${likely.steady}`;
      let number = numbers.get(key);
      if (number === undefined) {
        numbers.set(key, (number = versions.length));
        versions.push(likely);
      }
      return number;
    });
    this.versions = versions;
    const stakes = this.likely.map(({ group, suspect, weight }, i) => ({
      version: this.versionOf[i]!,
      group: apart === 'repairs' ? group : suspect,
      weight: even ? Math.sqrt(weight) : weight,
    }));
    const groups = apart === 'repairs' ? diagnosis.groups.length : diagnosis.suspects.length;
    this.meter = new GainMeter(stakes, groups);
  }

  /**
   * The best tests, best first.
   * @param most how many are wanted; only the first is sure to be the best, for what cannot beat it is not worked out
   */
  best(most: number): Weighed[] {
    let best: Weighed[] = [];
    let looked = 0;
    for (const { candidate, cost, effort } of this.queue()) {
      const [leader] = best;
      const hoped = Math.min(this.meter.most, HOPED_BITS);
      if (leader !== undefined && (hoped / effort <= leader.value || looked > MOST_FORECASTS)) break;
      looked += this.versions.length;
      const outlook = this.outlook(candidate);
      if (outlook === undefined || this.repeats(candidate, outlook)) continue;
      const gain = this.meter.gain(outlook);
      const separates = candidate.wiggle === undefined && this.meter.separates(outlook);
      if (gain < LEAST_GAIN && !separates) continue;
      best.push({ ...cost, candidate, effort, gain, separates, value: gain / effort });
      best.sort((a, b) => b.value - a.value || (a.candidate.words < b.candidate.words ? -1 : 1));
      best = distinct(best).slice(0, most);
    }
    return best;
  }

  /**
   * Every test that tells something, with what it would read: the cheapest first, but for those that would have to tell more than any
   * does, until the work runs out.
   */
  telling(): Telling[] {
    const found: Telling[] = [];
    let best = 0;
    let work = 0;
    const usual = MOST_SOLVES / Math.max(1, (this.bench.network.loads.size / USUAL_LOADS) ** 1.5);
    // As it failed it is looked at in any case, however many set-ups for a glance come before in the order of minutes.
    const solved = new Set(this.conditions.map(({ setUp }) => this.forecaster.key(setUp)));
    const hoped = Math.min(this.meter.most, HOPED_BITS);
    for (const { candidate, cost, effort } of this.queue()) {
      const most = best < POOR ? PATIENT * usual : usual;
      if (work > 2 * most) break;
      // A place that is laid open serves more than one test: what that costs is weighed when planning ahead.
      if (hoped / (effort - cost.opening) <= best * WORSE) continue;
      const own = this.versions.length * this.workOf(candidate, solved);
      if (work + own > most && own > this.versions.length * READ_WORK) continue;
      work += own;
      solved.add(this.forecaster.key(candidate.setUp));
      const outlook = this.outlook(candidate);
      if (outlook === undefined || this.repeats(candidate, outlook)) continue;
      const gain = this.meter.gain(outlook);
      const separates = candidate.wiggle === undefined && this.meter.separates(outlook);
      if (gain < LEAST_GAIN && !separates) continue;
      const value = gain / effort;
      best = Math.max(best, value);
      found.push({ ...cost, candidate, effort, gain, separates, value, outlook });
    }
    return found;
  }

  /** Solves for each version, as if none had been done in an earlier call: the same question gets the same answer. */
  private workOf({ reading, setUp }: Candidate, solved: ReadonlySet<string>): number {
    const fresh = solved.has(this.forecaster.key(setUp)) ? 0 : 1;
    const ohms = reading.kind === 'ohms' || reading.kind === 'test lamp' || drawsLampCurrent(reading);
    return fresh + (ohms ? OHMS_WORK : READ_WORK);
  }

  /** One test of somebody's choice; undefined where its reading is not forecast. */
  weighOne(candidate: Candidate): Telling | undefined {
    const cost = new Costs(this.bench.circuit, this.session).of(candidate);
    const effort = cost.minutes * (cost.disturbs ? DISTURBANCE : 1);
    const outlook = this.outlook(candidate);
    if (outlook === undefined) return undefined;
    const gain = this.meter.gain(outlook);
    const separates = candidate.wiggle === undefined && this.meter.separates(outlook);
    return { ...cost, candidate, effort, gain, separates, value: gain / effort, outlook };
  }

  /** Tests not done yet, each question once at its cheapest, the cheapest first. */
  queue(): readonly Queued[] {
    const { bench, session, diagnosis, forecaster, conditions } = this;
    const costs = new Costs(bench.circuit, session);
    const asked = askedAlready(bench, forecaster, session, diagnosis.suspects);
    const skipped = new Set(session.skipped.map(({ test }) => test));
    const byQuestion = new Map<string, Queued>();
    for (const candidate of candidates(bench, diagnosis, conditions)) {
      const question = questionOfCandidate(bench, forecaster, candidate);
      if (asked.has(question) || skipped.has(candidate.line)) continue;
      const cost = costs.of(candidate);
      const effort = cost.minutes * (cost.disturbs ? DISTURBANCE : 1);
      const other = byQuestion.get(question);
      if (other === undefined || effort < other.effort) byQuestion.set(question, { candidate, cost, effort });
    }
    return [...byQuestion.values()].sort((a, b) => a.effort - b.effort);
  }

  /** What the test would read with each version; undefined for a reading that is not forecast. */
  outlook({ reading, setUp, wiggle }: Pick<Candidate, 'reading' | 'setUp' | 'wiggle'>): Outlook | undefined {
    const count = this.versions.length;
    const outlook: Outlook & { unsure?: Uint8Array } = {
      figures: new Float64Array(count),
      from: new Float64Array(count),
      to: new Float64Array(count),
    };
    if (wiggle !== undefined) {
      this.versions.forEach(({ at, steady }, i) => {
        // Moving the bad place shows it about every second time (common practice, no source); another one shows nothing.
        outlook.from[i] = at.includes(wiggle.at) && !steady ? 0 : 1;
        outlook.to[i] = 2;
      });
      return outlook;
    }
    const figure = figureOf(this.bench, this.forecaster, reading);
    const forecasts = this.forecastsIn(setUp);
    if (figure === undefined) return undefined;
    const classify = classifierFor(this.bench, reading, this.surroundings);
    const away = this.awayIn(setUp);
    for (let i = 0; i < count; i++) {
      const forecast = forecasts[i]!;
      const ends = reading.kind === 'ohms' ? (this.versions[i]!.atMeter ?? []) : [];
      outlook.figures[i] = figure(forecast);
      const { moments, ways } = forecast;
      [outlook.from[i], outlook.to[i]] =
        ends.length === 0 && moments === undefined && ways === undefined
          ? classify(outlook.figures[i]!)
          : hullOf(
              [forecast, ...ends.map((end) => this.forecaster.forecast(end, setUp))].flatMap((one) =>
                figuresIn(reading, figure, one).map(classify),
              ),
            );
      if (ways !== undefined && areApart(figuresIn(reading, figure, forecast).map(classify)))
        (outlook.unsure ??= new Uint8Array(count))[i] = 1;
      if (away === undefined || this.versions[i]!.steady) continue;
      outlook.figures[i] = figure(away);
      [outlook.from[i], outlook.to[i]] = hullOf(figuresIn(reading, figure, away).map(classify));
      if (outlook.unsure !== undefined) outlook.unsure[i] = 0;
    }
    return outlook;
  }

  /** Was a test of this kind done that would read the same with every version? Asked again it would answer the same. */
  private repeats({ reading, wiggle }: Candidate, outlook: Outlook): boolean {
    return (
      wiggle === undefined &&
      (this.answered ??= this.answers()).some(
        (answer) => answer.kind === reading.kind && isLike(answer.outlook, outlook),
      )
    );
  }

  private answers(): { readonly kind: Reading['kind']; readonly outlook: Outlook }[] {
    const { bench, session, diagnosis } = this;
    return findingsOf({ ...session, timeline: undisturbed(bench, session, diagnosis.suspects) })
      .filter(({ evidence, reading }) => evidence !== 'told' && !isRounded(reading))
      .flatMap(({ reading, setUp }) => {
        const outlook = this.outlook({ reading, setUp, wiggle: undefined });
        return outlook === undefined ? [] : [{ kind: reading.kind, outlook }];
      });
  }

  /** The likely faults with what each would read in a test, for its words. */
  members(candidate: Candidate): readonly Member[] {
    const outlook = this.outlook(candidate);
    if (outlook === undefined) return [];
    return this.likely.map((likely, i) => {
      const version = this.versionOf[i]!;
      const span = [outlook.from[version]!, outlook.to[version]!] as const;
      const unsure = outlook.unsure?.[version] === 1;
      return { likely, figure: outlook.figures[version]!, span, unsure };
    });
  }

  /** With the complaint gone: what a vehicle reads while its fault is away. */
  private awayIn(setUp: SetUp): Forecast | undefined {
    if (!this.diagnosis.gone) return undefined;
    return this.forecaster.forecast({ key: 'away', faults: [], blown: 0 }, setUp);
  }

  private forecastsIn(setUp: SetUp): readonly Forecast[] {
    const key = this.forecaster.key(setUp);
    let list = this.forecasts.get(key);
    if (list === undefined) {
      list = this.versions.map((version) => this.forecaster.forecast(version, setUp));
      this.forecasts.set(key, list);
    }
    return list;
  }
}

/** Is there one that ends before another begins? */
function areApart(spans: readonly Span[]): boolean {
  return Math.max(...spans.map(([from]) => from)) >= Math.min(...spans.map(([, to]) => to));
}

/** Classes by which two readings may differ and still be the same question. */
const ALIKE = 0.75;

function isLike(one: Outlook, other: Outlook): boolean {
  for (let i = 0; i < one.from.length; i++) {
    if (Math.abs(one.from[i]! - other.from[i]!) > ALIKE || Math.abs(one.to[i]! - other.to[i]!) > ALIKE)
      return false;
  }
  return true;
}

/** Tests of one kind that tell the same are one choice: the cheapest stands for them. */
function distinct(list: readonly Weighed[]): Weighed[] {
  const seen = new Set<string>();
  return list.filter(({ candidate, gain }) => {
    const key = `${candidate.reading.kind} ${gain.toFixed(5)}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
