/**
 * Masking: with an open circuit in the feed nothing flows behind it, so a short or a dead load there cannot show. It is named, so
 * that the repair of the first fault is not taken for the end; but only what would still matter after that repair.
 */
import { atRest } from '../session/setup.js';
import type { SetUp } from '../session/setup.js';
import type { AppliedFault } from '../network/solver-types.js';
import type { Hidden } from './diagnosis-types.js';
import type { Evidence, EvidenceStep } from './evidence-types.js';
import { infoOf } from './fault-info.js';
import type { Fault } from './faults.js';
import { Predictor } from './predict.js';
import type { Standing } from './rank.js';
import { leadingVerdict } from './rank.js';
import { isOpen } from './severity.js';
import { Spoils } from './spoils.js';
import type { Workbench } from './workbench.js';

type Observed = Extract<EvidenceStep, { kind: 'observation' }>;

const MOST_NAMED = 8;

function isShort({ kind }: Fault): boolean {
  return kind === 'short' || kind === 'touching' || kind === 'seized';
}

/**
 * Faults that nothing so far would have shown, and that would still make a load fail or blow a fuse in a failed condition once
 * the leader is repaired; the likeliest first.
 * @param standing best first; only the leader is asked what it hides
 */
export function hiddenBehind(bench: Workbench, evidence: Evidence, standing: readonly Standing[]): Hidden[] {
  const leader = standing[0] && leadingVerdict(standing[0]);
  if (leader === undefined || leader.faults.length > 1) return [];
  const [front] = leader.faults;
  const high = leader.severity[0]?.high ?? front!.scale.edges.at(-1)!;
  if (front!.kind !== 'open' && !(front!.scale.unit === 'ohm' && isOpen(high))) return [];
  const applied = front!.apply(high);
  const seen = evidence.steps.filter(
    (step): step is Observed => step.kind === 'observation' && step.observation.hard,
  );
  const spoils = new Spoils(bench, failedSetUps(bench, seen));
  const alone = new Set(standing.map((both) => leadingVerdict(both).faults[0]!.id));
  const ranked = bench.faults
    .filter(
      (fault) =>
        fault.site !== front!.site &&
        !alone.has(fault.id) &&
        (isShort(fault) || fault.kind === 'open') &&
        !isReplaced(evidence, fault),
    )
    .sort((a, b) => b.weight - a.weight);
  const named: Fault[] = [];
  for (const fault of ranked) {
    if (named.length === MOST_NAMED) break;
    const { edges } = fault.scale;
    const hides = [...new Set([edges[0]!, edges.at(-1)!])].some((end) => {
      const behind = fault.apply(end);
      return (
        spoils.by(behind) && !spoils.showsBeside(applied, behind) && isUnseen(bench, seen, applied, behind)
      );
    });
    if (hides) named.push(fault);
  }
  return named.length === 0
    ? []
    : [{ behind: infoOf(front!), faults: named.map(infoOf), advice: adviceFor(named) }];
}

/** The conditions of the findings that a healthy vehicle would not show, with everything back in its place. */
function failedSetUps(bench: Workbench, seen: readonly Observed[]): readonly SetUp[] {
  const failed = new Map<string, SetUp>();
  for (const { observation } of seen) {
    const { controls, engine } = observation.setUp;
    const key = JSON.stringify([[...controls], engine]);
    if (failed.has(key) || agrees(bench, observation, [])) continue;
    failed.set(key, { ...atRest(bench.circuit), controls, engine });
  }
  return [...failed.values()];
}

/** Everything found would have been the same with this fault behind the first, no fuse blown; or alone while that was away. */
function isUnseen(
  bench: Workbench,
  seen: readonly Observed[],
  front: AppliedFault,
  fault: AppliedFault,
): boolean {
  return seen.every(({ observation, symptom }) =>
    agrees(bench, observation, symptom === 'present' ? [front, fault] : [fault]),
  );
}

function agrees(
  bench: Workbench,
  observation: Observed['observation'],
  faults: readonly AppliedFault[],
): boolean {
  const predictor = new Predictor(bench, observation);
  const battery: AppliedFault = { kind: 'law', element: bench.source, law: observation.source };
  // Of two faults the predictor leaves out one that changes nothing once the fuse is blown, though it is why the fuse is whole:
  // the battery as it is makes them three, of which it leaves out none.
  const asked = faults.length === 2 ? [...faults, battery] : faults;
  const meets = (nominal: boolean) =>
    predictor
      .bands([asked], 0, nominal)
      .some(({ low, high, blown }) => blown === 0 && low <= observation.high && high >= observation.low);
  return meets(true) || meets(false);
}

function isReplaced(evidence: Evidence, fault: Fault): boolean {
  return evidence.steps.some((step) => step.kind === 'change' && step.replaced?.(fault) === true);
}

function adviceFor(named: readonly Fault[]): string {
  const shorts = named.filter(isShort).length;
  return [
    'Nothing flows behind it, so they have not shown yet.',
    shorts === 0
      ? ''
      : 'Before power goes on again measure ohms to ground there, or hang a test lamp in place of the fuse.',
    shorts === named.length ? '' : 'Repeat every failed condition after the repair.',
  ]
    .filter((words) => words !== '')
    .join(' ');
}
