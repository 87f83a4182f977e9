/**
 * Does a version of a fault agree with what was found? Severities that a finding has ruled out would foretell readings that
 * cannot come. For choosing a test only: it compares coarsely and rules nothing out.
 */
import { gather } from '../diagnosis/evidence.js';
import { sightBand, WORDS } from '../diagnosis/sights.js';
import type { Workbench } from '../diagnosis/workbench.js';
import { isRepair } from '../session/actions.js';
import type { Case, Finding } from '../session/case.js';
import type { Reading } from '../session/events.js';
import { findingsOf } from './condition.js';
import type { Forecaster } from './forecast.js';
import type { Version } from './likely.js';
import type { Span, Surroundings } from './outcome-classes.js';
import { classifierFor, hullOf, SIGHT_SHARE } from './outcome-classes.js';
import type { Figure } from './reads.js';
import { figureOf, figuresIn } from './reads.js';

interface Check {
  readonly finding: Finding;
  /** Whether a version agrees, by its key: what was worked out in earlier calls. */
  readonly known: Map<string, boolean>;
  readonly figure: Figure;
  /** Whether any reading between these figures is the one found. */
  readonly agrees: (figures: readonly number[]) => boolean;
}

/** Part of its rated volts below which a load surely looks or sounds worse. */
const SHOWS = 0.85;
/** Findings looked at, the latest first: enough to pin a severity down. */
const MOST_CHECKS = 16;

export class Agreement {
  private readonly checks: readonly Check[];

  constructor(
    bench: Workbench,
    session: Case,
    private readonly forecaster: Forecaster,
    surroundings: Surroundings,
  ) {
    const there = foundWithComplaint(bench, session);
    // Before a repair the vehicle was another one.
    const since = session.timeline.findLastIndex((step) => step.kind === 'action' && isRepair(step.action));
    this.checks = findingsOf({ ...session, timeline: session.timeline.slice(since + 1) })
      .filter(({ number, evidence, proved }) => evidence !== 'told' && proved && there.has(number))
      .slice(-MOST_CHECKS)
      .flatMap((finding) => {
        const figure = figureOf(bench, forecaster, finding.reading);
        const agrees = agreeing(bench, finding.reading, surroundings);
        if (figure === undefined || agrees === undefined) return [];
        const name = `${forecaster.key(finding.setUp)} ${surroundings.battery} ${JSON.stringify(finding.reading)}`;
        return [{ finding, figure, agrees, known: answersOf(forecaster, name) }];
      });
  }

  /** Number of findings it disagrees with. */
  misfits(version: Version): number {
    return this.missed(version).length;
  }

  /** The findings it disagrees with. */
  missed(version: Version): number[] {
    const numbers: number[] = [];
    for (const { finding, figure, agrees, known } of this.checks) {
      let does = known.get(version.key);
      if (does === undefined) {
        const forecast = this.forecaster.forecast(version, finding.setUp);
        does = agrees(figuresIn(finding.reading, figure, forecast));
        known.set(version.key, does);
      }
      if (!does) numbers.push(finding.number);
    }
    return numbers;
  }
}

/** Findings whose answers are kept: those of a long session, with what is known of the battery now and before. */
const MOST_KEPT = 100;
const memory = new WeakMap<Forecaster, Map<string, Map<string, boolean>>>();

/** The forecasts of many versions fill their memory fast; whether each agreed is little to keep. */
function answersOf(forecaster: Forecaster, name: string): Map<string, boolean> {
  let findings = memory.get(forecaster);
  if (findings === undefined) memory.set(forecaster, (findings = new Map()));
  const known = findings.get(name) ?? new Map<string, boolean>();
  findings.delete(name);
  findings.set(name, known);
  if (findings.size > MOST_KEPT) findings.delete(findings.keys().next().value!);
  return known;
}

/** Numbers of the findings at which the complaint was there: while it is away, what comes and goes may read like nothing at all. */
function foundWithComplaint(bench: Workbench, session: Case): ReadonlySet<number> {
  return new Set(
    gather(bench, session).steps.flatMap((step) =>
      step.kind === 'observation' && step.symptom === 'present' ? [step.observation.finding] : [],
    ),
  );
}

function agreeing(
  bench: Workbench,
  reading: Reading,
  surroundings: Surroundings,
): Check['agrees'] | undefined {
  const classify = classifierFor(bench, reading, surroundings);
  const near = (value: number, step: number) => {
    const read = hullOf([value - step, value + step].map(classify));
    return (figures: readonly number[]) => meets(hullOf(figures.map(classify)), read);
  };
  switch (reading.kind) {
    case 'volts':
    case 'clamp':
      return near(reading.value.value, reading.value.step);
    case 'ohms':
      return reading.value === 'OL' ? near(Infinity, 0) : near(reading.value.value, reading.value.step);
    case 'load': {
      const { kind } = bench.network.loads.get(reading.load)!;
      const flashes = reading.value === 'flashes';
      if (!WORDS[kind].includes(reading.value) && !flashes) return undefined;
      const { low, high } = sightBand(kind, reading.value);
      // What was called dim may be a healthy load at low volts; but a fault too mild to show is not what to look for.
      const bad = reading.value !== WORDS[kind][0] && !flashes;
      return within({ low, high: bad ? Math.min(high, SHOWS) : high });
    }
    case 'test lamp':
    case 'fuse lamp':
      return within(sightBand('lamp', reading.value));
    default:
      return undefined;
  }
}

function within({ low, high }: { readonly low: number; readonly high: number }) {
  return (shares: readonly number[]) =>
    shares.some((share) => share * (1 + SIGHT_SHARE) >= low && share * (1 - SIGHT_SHARE) <= high);
}

function meets(one: Span, other: Span): boolean {
  return one[0] < other[1] && other[0] < one[1];
}
