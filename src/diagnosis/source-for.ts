/** The battery behind a finding: typed beside it, known from the session, or anywhere in its band. */
import type { Circuit } from '../circuit/circuit.js';
import { hasAlternator, sourceLaw } from '../network/conditions.js';
import { voltsError } from '../network/meters.js';
import type { Law } from '../network/network.js';
import type { AppliedFault } from '../network/solver-types.js';
import type { Finding, Step } from '../session/case.js';
import type { Action, Typed } from '../session/events.js';
import type { SetUp } from '../session/setup.js';
import { attachedBy, node } from './attached.js';
import { canBlow, type Fault } from './fault.js';
import { placedFaults } from './fitted.js';
import type { Workbench } from './workbench.js';

export interface Battery {
  readonly source: Law;
  /** The posts were measured beside the reading: `source` stands for them. */
  readonly pinned: boolean;
  /**
   * The battery for faults that pulled its posts down when they were measured: what they read then says less of it. Left out: `source` holds
   * for all.
   */
  readonly drained?: { readonly source: Law; readonly by: (fault: Fault) => boolean };
}

/** Battery volts known from this session, per engine state; readings at the posts within ± this much of a later moment. */
const BATTERY_WANDERS = 0.4;

/**
 * Posts lie below the battery's own volts by what the load takes from it: up to this many times the drop of a healthy vehicle,
 * for a held starter draws several times what a turning one does (common practice, no source).
 */
const SAG_SPREAD = 3;
/** Volts that a fault may take from the posts before they say less of the battery: well below what it wanders anyhow. */
const DRAINS = 0.1;

/** Typed battery volts of this finding and of those before it with the engine in the same state. */
export function knownBattery(finding: Finding): Typed | undefined {
  const { reading } = finding;
  if (finding.battery !== undefined) return finding.battery;
  if (reading.kind === 'volts' && reading.red === 'bat+' && reading.black === 'bat-') return reading.value;
  return undefined;
}

/**
 * Findings before which battery volts were not known with the engine in their state, or only to whole volts, each with the first later
 * one that tells them better: the battery was the same, unless it was charged by a running engine or exchanged in between.
 */
export function batteryAfter(
  { circuit }: Workbench,
  timeline: readonly Step[],
): ReadonlyMap<Finding, Finding> {
  const after = new Map<Finding, Finding>();
  const known = new Map<SetUp['engine'], boolean>();
  let waiting: { readonly finding: Finding; readonly known: boolean | undefined }[] = [];
  for (const step of timeline) {
    if (step.kind === 'action') {
      if (changesBattery(circuit, step.action)) waiting = [];
      continue;
    }
    const { finding } = step;
    const { engine } = finding.setUp;
    const posts = finding.evidence === 'told' ? undefined : knownBattery(finding);
    if (posts === undefined || known.get(engine) === true) {
      waiting.push({ finding, known: known.get(engine) });
      continue;
    }
    const fine = posts.step < 1;
    for (const before of waiting) {
      const isBetter =
        before.known === undefined ? fine || !after.has(before.finding) : fine && !before.known;
      if (isBetter && before.finding.setUp.engine === engine) after.set(before.finding, finding);
    }
    known.set(engine, fine);
  }
  return after;
}

function changesBattery({ parts }: Circuit, action: Action): boolean {
  if (action.do === 'engine') return true;
  if (action.do === 'swap') return action.parts.some((part) => parts.get(part)?.type === 'battery');
  const fits = action.do === 'fit new' || action.do === 'fit known-good' || action.do === 'refit';
  return fits && parts.get(action.part)?.type === 'battery';
}

/** How far the posts lie below the battery's own volts in a set-up, with these faults there. */
function sagOf(bench: Workbench, setUp: SetUp, faults: readonly AppliedFault[]): number {
  const own = bench.network.elements[bench.source]!.law;
  if (own.kind !== 'source') return 0;
  const placed = placedFaults(bench.network, setUp.fitted, faults);
  const posts = bench
    .solver(attachedBy(bench, setUp))
    .solve({ present: bench.presence(setUp), faults: placed, blown: 0 })
    .map((outcome) => outcome.volts[node(bench, 'bat+')]! - outcome.volts[node(bench, 'bat-')]!);
  return Math.max(0, own.volts - Math.min(...posts));
}

/** Whether each fault, by its id, lowers the posts in a set-up by more than a healthy vehicle does: the same in every session. */
const known = new WeakMap<Workbench, Map<string, boolean>>();

/** Faults that lower the posts in any of these set-ups. */
function drainsIn(bench: Workbench, setUps: readonly SetUp[]): (fault: Fault) => boolean {
  let all = known.get(bench);
  if (all === undefined) known.set(bench, (all = new Map()));
  const names = setUps.map((setUp) => {
    const { fitted, jumpers, lamps } = setUp;
    return JSON.stringify([bench.presence(setUp).join(''), [...fitted], jumpers, [...lamps]]);
  });
  return (fault) =>
    canBlow(fault) &&
    setUps.some((setUp, i) => {
      const name = `${fault.id} ${names[i]}`;
      let does = all.get(name);
      if (does === undefined) all.set(name, (does = drains(bench, setUp, fault)));
      return does;
    });
}

function drains(bench: Workbench, setUp: SetUp, { scale, apply }: Fault): boolean {
  const healthy = sagOf(bench, setUp, []);
  return [scale.edges[0]!, scale.edges.at(-1)!].some(
    (edge) => sagOf(bench, setUp, [apply(edge)]) > healthy + DRAINS,
  );
}

interface Volts {
  readonly low: number;
  readonly high: number;
}

/** Inside the other, and narrower. */
function isWithin(one: Volts, other: Volts): boolean {
  return one.low >= other.low && one.high <= other.high && one.high - one.low < other.high - other.low;
}

/**
 * The battery as a finding may assume it: typed beside it, known from this session, or anywhere in its band.
 * @param others from which it may be known: the earlier ones, or the later one of `batteryAfter`
 */
export function sourceFor(bench: Workbench, finding: Finding, others: readonly Finding[]): Battery {
  const law = sourceLaw(bench.network, bench.circuit.nominalVolts, finding.setUp.engine);
  if (law.kind !== 'source') throw new Error('a battery is a source');
  if (finding.battery !== undefined) {
    const { value, step } = finding.battery;
    const error = voltsError(value, step);
    const pinned: Law = {
      kind: 'source',
      volts: value,
      lowVolts: value - error,
      highVolts: value + error,
      ohms: 1e-5,
    };
    return { source: pinned, pinned: true };
  }
  // The posts read in this very finding say nothing of the battery beforehand: it is the thing asked.
  if (knownBattery(finding) !== undefined) return { source: law, pinned: false };
  // Posts that an alternator holds up say nothing of the battery behind them.
  if (finding.setUp.engine === 'running' && hasAlternator(bench.network))
    return { source: law, pinned: false };
  const known = others.flatMap((other) => {
    const posts = other.setUp.engine === finding.setUp.engine ? knownBattery(other) : undefined;
    if (posts === undefined) return [];
    const error = voltsError(posts.value, posts.step) + BATTERY_WANDERS;
    const sag = SAG_SPREAD * sagOf(bench, other.setUp, []);
    return [{ low: posts.value - error, high: posts.value + error + sag, setUp: other.setUp }];
  });
  if (known.length === 0) return { source: law, pinned: false };
  // "13" says nothing against a 12.44 typed before or after it.
  const fine = known.filter((band) => !known.some((other) => isWithin(other, band)));
  const low = Math.min(...fine.map((band) => band.low));
  const high = Math.max(...fine.map((band) => band.high));
  const lowVolts = Math.max(law.lowVolts, low);
  const highVolts = Math.min(law.highVolts, high);
  if (lowVolts > highVolts) return { source: law, pinned: false };
  const by = drainsIn(
    bench,
    known.map(({ setUp }) => setUp),
  );
  return {
    source: { ...law, volts: (lowVolts + highVolts) / 2, lowVolts, highVolts },
    pinned: false,
    drained: { source: law, by },
  };
}
