/** What looks at the loads tell of the complaint: whether it is there, has gone, or is there again. */
import type { Finding, Step } from '../session/case.js';
import { sameSetUp } from '../session/setup.js';
import type { Symptom } from './evidence-types.js';
import { isGoodSight } from './good-sights.js';
import type { Band } from './question.js';
import { WORDS } from './sights.js';
import type { Workbench } from './workbench.js';

/** Part of its rated volts below which a load has nothing to do. */
const UNFED = 0.05;

/**
 * Was the complaint there at this finding? Said so, or shown: a load out of order shows it; one that was out of order, or did
 * otherwise, in the same set-up and is as it may be now shows that it may have gone. With the complaint gone, a load that works less well
 * than it did may be the complaint again, or how somebody puts it.
 * @param amiss numbers of the findings that no healthy vehicle would show
 */
export function symptomAt(
  bench: Workbench,
  finding: Finding,
  earlier: readonly Finding[],
  amiss: ReadonlySet<number>,
  before: Symptom,
): Symptom {
  if (finding.symptom === 'absent') return 'absent';
  const { reading } = finding;
  if (reading.kind !== 'load' || finding.evidence === 'told') return before;
  const { value } = reading;
  if (amiss.has(finding.number)) return 'present';
  const differs = (other: Finding) => other.reading.kind === 'load' && other.reading.value !== value;
  const looks = earlier.filter((other) => repeats(other, finding));
  if (!looks.some((other) => amiss.has(other.number) || differs(other))) return before;
  const wasFine = looks.some((other) => differs(other) && !amiss.has(other.number));
  const isWorse = wasFine && value !== WORDS[bench.network.loads.get(reading.load)!.kind][0];
  if (isWorse) return before === 'present' ? 'present' : 'unsure';
  return 'absent';
}

/** Does a load do otherwise than when it was last looked at in the same set-up? What comes and goes may have done so in between. */
export function hasTurned(finding: Finding, earlier: readonly Finding[]): boolean {
  const { reading } = finding;
  if (reading.kind !== 'load' || finding.evidence === 'told') return false;
  const last = earlier.findLast((other) => other.evidence !== 'told' && repeats(other, finding));
  return last?.reading.kind === 'load' && last.reading.value !== reading.value;
}

/**
 * Does what is looked at again now do what it should? Undefined where nothing is looked at again.
 * @param healthy what a healthy vehicle would show, in parts of the rated volts
 */
export function isWellAgain(
  bench: Workbench,
  finding: Finding,
  earlier: readonly Finding[],
  healthy: readonly Band[],
): boolean | undefined {
  if (finding.evidence === 'told' || !earlier.some((other) => repeats(other, finding))) return undefined;
  return isGoodSight(bench, finding) || healthy.every(({ high }) => high < UNFED);
}

/** What was complained of before is there again, by the same word: it may prove nothing, but nobody would call it cured. */
export function failsAgain(
  bench: Workbench,
  finding: Finding,
  earlier: readonly Finding[],
  amiss: ReadonlySet<number>,
): boolean {
  const { reading } = finding;
  if (reading.kind !== 'load' || finding.evidence === 'told') return false;
  if (!amiss.has(finding.number) && isGoodSight(bench, finding)) return false;
  return earlier.some(
    (other) =>
      other.evidence !== 'told' &&
      repeats(other, finding) &&
      other.reading.kind === 'load' &&
      other.reading.value === reading.value,
  );
}

/**
 * The timeline with what was looked at in one go, with nothing done in between, in one order whoever wrote it down: first the loads that
 * do otherwise than before. Else one that fails still would say that a repair was in vain which has cured another.
 */
export function turnedFirst(timeline: readonly Step[]): Step[] {
  const ordered: Step[] = [];
  const earlier: Finding[] = [];
  let looks: Extract<Step, { kind: 'finding' }>[] = [];
  const close = () => {
    const turned = looks.filter(({ finding }) => hasTurned(finding, earlier));
    ordered.push(...turned, ...looks.filter((look) => !turned.includes(look)));
    earlier.push(...looks.map(({ finding }) => finding));
    looks = [];
  };
  for (const step of timeline) {
    const isLook = step.kind === 'finding' && step.finding.reading.kind === 'load';
    const [first] = looks;
    const isTogether =
      isLook &&
      first !== undefined &&
      sameSetUp(first.finding.setUp, step.finding.setUp) &&
      !looks.some(({ finding }) => repeats(finding, step.finding));
    if (!isTogether) close();
    if (isLook) looks.push(step);
    else {
      ordered.push(step);
      if (step.kind === 'finding') earlier.push(step.finding);
    }
  }
  close();
  return ordered;
}

/**
 * What fails still, for all that is known, when one of the loads is looked at again. One that does otherwise by itself tells that all may
 * do so; after a touch, that what was seen before it may be out of date.
 * @param failing the last looks at what failed
 * @param touchedAfter how many of the earlier findings there were when anything but a control was last touched
 */
export function stillFailing(
  failing: readonly Finding[],
  finding: Finding,
  earlier: readonly Finding[],
  touchedAfter: number,
): readonly Finding[] {
  const others = failing.filter((other) => !repeats(other, finding));
  if (!hasTurned(finding, earlier)) return others;
  const since = earlier.slice(touchedAfter);
  return since.some((other) => repeats(other, finding))
    ? []
    : others.filter((other) => since.includes(other));
}

/** The same load, looked at in the same set-up. */
function repeats({ reading, setUp }: Finding, finding: Finding): boolean {
  return (
    reading.kind === 'load' &&
    finding.reading.kind === 'load' &&
    reading.load === finding.reading.load &&
    sameSetUp(setUp, finding.setUp)
  );
}
