/**
 * When a suspect may be called confirmed: positive evidence only. Being the last one standing is no proof, and a part that works
 * again after it was touched was not shown to be bad.
 */
import type { Case, Finding, Step } from '../session/case.js';
import type { Action } from '../session/events.js';
import type { Suspect } from './diagnosis-types.js';
import type { Evidence } from './evidence-types.js';
import { sameSetUp } from '../session/setup.js';
import type { Fault } from './fault.js';
import { isGoodSight } from './good-sights.js';
import { isMissed } from './proof-of-mending.js';
import { isRepair } from './proof-of-repair.js';
import type { Workbench } from './workbench.js';

/** A drop across one single contact or wire under load that no good one has: documents agree on 0.0 to 0.2 V (NAVEDTRA 14050). */
const BAD_DROP_VOLTS = 0.2;
/** What carries current without using it: wires, contacts, fuses. */
const CONDUCTOR_OHMS = 0.5;
/** The share that one repair must have before a look or a repair is taken as proof of it. */
const CLEAR_LEAD = 0.9;

/** How what is damaged looks. */
export const DAMAGE: ReadonlySet<string> = new Set([
  'blown',
  'broken',
  'burnt',
  'corroded',
  'loose',
  'wrong part',
]);

/**
 * Hypotheses with positive evidence.
 * @param ranked what still fits, best first
 * @param verified the repair was proved by repeating every failed condition
 */
export function confirmedBy(
  bench: Workbench,
  session: Case,
  evidence: Evidence,
  ranked: readonly Suspect[],
  verified: boolean,
): ReadonlySet<string> {
  const [leader] = ranked;
  if (leader === undefined || leader.faults.length > 1) return new Set();
  const how = leader.faults[0]!.repair.how;
  const group = ranked.filter((suspect) => suspect.faults[0]!.repair.how === how);
  const share = group.reduce((sum, suspect) => sum + suspect.share, 0);
  if (share < CLEAR_LEAD) return new Set();
  const findings = session.timeline.flatMap((step) => (step.kind === 'finding' ? [step.finding] : []));
  const damaged = (suspect: Suspect) =>
    findings.some(
      ({ reading }) =>
        reading.kind === 'look' &&
        DAMAGE.has(reading.value) &&
        [suspect.faults[0]!.part, suspect.faults[0]!.site].includes(reading.at),
    );
  // A short and the fuse it blew are both repaired: either may come last.
  const repaired = verified ? session.timeline.flatMap(repairedPart) : [];
  const faultOf = ({ hypothesis }: Suspect) => bench.faults.find(({ id }) => id === hypothesis)!;
  // What comes and goes by itself may have gone by itself again.
  const mended = (suspect: Suspect) =>
    suspect.course !== 'comes and goes' &&
    repaired.includes(suspect.faults[0]!.part) &&
    isMissed(bench, faultOf(suspect), evidence);
  const proved = group.filter(
    (suspect) =>
      findings.some((finding) => dropAcross(bench, finding, suspect)) || damaged(suspect) || mended(suspect),
  );
  // A new motor mends a seized one and one with a short inside alike: it proves the one as much as the other.
  const others = proved.some(mended)
    ? ranked.filter(
        (suspect) =>
          suspect.faults.length === 1 &&
          !group.includes(suspect) &&
          mendedTogether(evidence, [leader, suspect].map(faultOf)) &&
          mended(suspect),
      )
    : [];
  return new Set([...proved, ...others].map((suspect) => suspect.hypothesis));
}

/** Was one of the repairs meant to mend them all? */
function mendedTogether({ steps }: Evidence, faults: readonly Fault[]): boolean {
  return steps.some(
    (step) => step.kind === 'change' && faults.every((fault) => step.mends?.(fault) === true),
  );
}

/** Both probes on the two sides of the suspect itself, under load, and volts between them. */
function dropAcross(bench: Workbench, finding: Finding, suspect: Suspect): boolean {
  const { reading } = finding;
  if (reading.kind !== 'volts' || Math.abs(reading.value.value) < BAD_DROP_VOLTS) return false;
  const index = bench.network.sites.get(suspect.faults[0]!.site);
  if (index === undefined) return false;
  const { a, b, law } = bench.network.elements[index]!;
  // Volts across a load or a battery are no loss.
  if (law.kind === 'source' || !('ohms' in law) || law.ohms > CONDUCTOR_OHMS) return false;
  const ends = [bench.network.points.get(reading.red), bench.network.points.get(reading.black)];
  return ends.includes(a) && ends.includes(b);
}

/** Failed conditions that were seen and not yet seen good again after the last repair (or at all): what to repeat. */
export function failures(bench: Workbench, findings: readonly Finding[]): Finding[] {
  const plain = findings.filter(
    ({ reading, setUp, evidence }) =>
      reading.kind === 'load' &&
      evidence !== 'told' &&
      setUp.jumpers.length === 0 &&
      setUp.unplugged.size === 0 &&
      setUp.out.size === 0,
  );
  return plain.filter(
    (finding, i) =>
      !isGoodSight(bench, finding) &&
      !plain.slice(0, i).some((other) => repeats(other, finding) && !isGoodSight(bench, other)),
  );
}

function repeats(again: Finding, failure: Finding): boolean {
  return (
    again.reading.kind === 'load' &&
    failure.reading.kind === 'load' &&
    again.reading.load === failure.reading.load &&
    again.evidence !== 'told' &&
    sameSetUp(again.setUp, failure.setUp)
  );
}

function repairedPart(step: Step): string[] {
  const part = step.kind === 'action' && isRepair(step.action) ? targetOf(step.action) : undefined;
  return part === undefined ? [] : [part];
}

function targetOf(action: Action): string | undefined {
  if (action.do === 'fit new') return action.part;
  if ('at' in action) return action.at.includes('.') ? action.at.slice(0, action.at.indexOf('.')) : action.at;
  return undefined;
}
