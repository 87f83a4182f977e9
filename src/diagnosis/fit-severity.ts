/**
 * How severe a suspect is, fitted to all findings at once: the cells that survived, their ends narrowed by bisection, and what the
 * fault takes away under load.
 */
import type { Case, Finding } from '../session/case.js';
import type { SetUp } from '../session/setup.js';
import { atRest } from '../session/setup.js';
import type { FittedSeverity } from './diagnosis-types.js';
import { asDrained } from './drained.js';
import { standingOf } from './evidence.js';
import type { Fault } from './faults.js';
import { placedFaults } from './fitted.js';
import { Predictor } from './predict.js';
import { DRIFT, isOpen } from './severity.js';
import type { Verdict } from './verdict.js';
import { isGoodSight } from './good-sights.js';
import type { Workbench } from './workbench.js';

/** Halvings of a cell's end: 3 cells a decade, so within 4 %. */
const HALVINGS = 4;

/**
 * Severity of the i-th fault of a hypothesis, over the courses in which it stands; undefined where it has none.
 * `narrow`: also search inside the cells.
 */
export function fitSeverity(
  bench: Workbench,
  session: Case,
  standing: readonly Verdict[],
  i: number,
  narrow: boolean,
): FittedSeverity | undefined {
  const fault = standing[0]!.faults[i]!;
  const { unit } = fault.scale;
  if (unit === 'none') return undefined;
  const ranges = standing.flatMap((verdict) => {
    const range = verdict.severity[i];
    if (range === undefined || Number.isNaN(range.low)) return [];
    return [
      narrow && verdict.faults.length === 1 && verdict.besides === undefined
        ? narrowed(bench, verdict, range)
        : range,
    ];
  });
  if (ranges.length === 0) return undefined;
  const low = Math.min(...ranges.map((range) => range.low));
  const high = Math.max(...ranges.map((range) => range.high));
  const value = middle(unit, low, high);
  return { unit, value, low, high, steals: steals(bench, session, fault, value) };
}

/** The value that stands for a range: an open circuit where that is possible, else the middle, by ratio for ohms. */
function middle(unit: FittedSeverity['unit'], low: number, high: number): number {
  if (unit === 'V') return (low + high) / 2;
  if (unit === 'ohm' && isOpen(high)) return isOpen(low) || low > 1000 ? high : Math.sqrt(low * 1e4);
  return Math.sqrt(low * high);
}

function narrowed(
  bench: Workbench,
  { faults, stretch, blown }: Verdict,
  { low, high }: { readonly low: number; readonly high: number },
): { low: number; high: number } {
  const fault = faults[0]!;
  const { edges, unit } = fault.scale;
  if (stretch.length === 0) return { low, high };
  const drift = fault.contact ? DRIFT : 1;
  const fits = (from: number, to: number) =>
    stretch.every((observation) => {
      // At meter current a contact may be another one.
      if (observation.current === 'meter' && fault.contact) return true;
      const corners = [[fault.apply(from / drift)], [fault.apply(to * drift)]];
      const predictor = new Predictor(bench, asDrained(observation, [fault]));
      return [...blown, 0].some((mask) =>
        predictor
          .bands(corners, mask)
          .some((band) => band.low <= observation.high && band.high >= observation.low),
      );
    });
  const between = (a: number, b: number) => (unit === 'V' ? (a + b) / 2 : Math.sqrt(a * b));
  const first = edges.find((edge) => edge > low) ?? high;
  const last = edges.findLast((edge) => edge < high) ?? low;
  let [lower, upper] = [low, first];
  for (let step = 0; step < HALVINGS; step++) {
    const at = between(lower, upper);
    if (fits(low, at)) upper = at;
    else lower = at;
  }
  const newLow = lower;
  if (isOpen(high)) return { low: newLow, high };
  [lower, upper] = [last, high];
  for (let step = 0; step < HALVINGS; step++) {
    const at = between(lower, upper);
    if (fits(at, high)) lower = at;
    else upper = at;
  }
  return { low: newLow, high: Math.max(upper, newLow) };
}

/** Volts lost in a series fault in the condition that failed. */
function steals(bench: Workbench, session: Case, fault: Fault, value: number): FittedSeverity['steals'] {
  const applied = fault.apply(value);
  if (applied.kind !== 'series') return undefined;
  const condition = failedCondition(bench, session);
  if (condition === undefined) return undefined;
  const { added, present, source } = standingOf(bench, condition);
  const placed = placedFaults(bench.network, condition.fitted, [applied]);
  const variant = {
    present,
    faults: [{ kind: 'law', element: bench.source, law: source } as const, ...placed],
    blown: 0,
  };
  const solver = bench.solver(added);
  const [outcome] = solver.solve(variant);
  const { a, b } = bench.network.elements[applied.element]!;
  const across = Math.abs(outcome!.volts[a]! - outcome!.volts[b]!);
  return { volts: across, condition: conditionWords(bench, condition) };
}

/** The last set-up in which a load was seen to fail, or else the last one in which a load was watched. */
function failedCondition(bench: Workbench, session: Case): SetUp | undefined {
  const seen = session.timeline.flatMap((step): Finding[] =>
    step.kind === 'finding' && step.finding.reading.kind === 'load' && step.finding.evidence !== 'told'
      ? [step.finding]
      : [],
  );
  const failed = seen.findLast((finding) => finding.symptom !== 'absent' && !isGoodSight(bench, finding));
  return (failed ?? seen.at(-1))?.setUp;
}

/** "with pedal down, lights on"; "at rest". */
function conditionWords(bench: Workbench, setUp: SetUp): string {
  const rest = atRest(bench.circuit).controls;
  const worked = [...setUp.controls].filter(([control, position]) => rest.get(control) !== position);
  if (worked.length === 0) return 'with everything at rest';
  return `with ${worked.map(([control, position]) => `${control} ${position}`).join(', ')}`;
}
