/**
 * What is always open beside the faults of the drawing: nothing is wrong now, a reading is wrong, this vehicle differs from the
 * drawing. Each keeps a small weight; when nothing in the drawing fits, all three are shown, the cheapest check first.
 */
import { minimumCover } from './covers/covers.js';
import type { OpenQuestion } from './diagnosis-types.js';
import type { Evidence } from './evidence-types.js';
import { withoutFindings } from './heard.js';
import type { Fault } from './faults.js';
import type { Standing } from './rank.js';
import type { Sense } from './senses.js';
import { judge } from './verdict.js';
import type { Workbench } from './workbench.js';

/** Prior weights beside the faults of the drawing taken together; common practice, no source. */
const DIFFERS = 0.002;
const WRONG_READING = 0.0005;
const NO_FAULT_NOW = 0.001;
const NOTHING_ABNORMAL = 0.5;
/** Hypotheses for which the readings that contradict them are worked out. */
const MOST_ASKED = 60;
/** More wrong readings than this in one session are not worth supposing. */
const MOST_WRONG = 3;

/** @param mass part of the prior weight of all single faults that still stands */
export function openQuestions(
  bench: Workbench,
  evidence: Evidence,
  senses: readonly Sense[],
  standing: readonly Standing[],
  mass: number,
): OpenQuestion[] {
  const hard = new Set(
    senses.filter(({ observation }) => observation.hard).map((s) => s.observation.finding),
  );
  const abnormal = senses.some((sense) => sense.abnormal);
  if (hard.size === 0) return [];
  const fits = standing.length > 0 || !abnormal;
  const weights = {
    nothing: abnormal ? NO_FAULT_NOW : NOTHING_ABNORMAL,
    wrong: WRONG_READING * hard.size,
    differs: DIFFERS,
  };
  const total = mass + weights.nothing + weights.wrong + weights.differs;
  const alone = standing.some(([{ faults }]) => faults.length === 1) || !abnormal;
  const retake = alone ? [] : readingsToRetake(bench, evidence);
  const open: OpenQuestion[] = [
    {
      what: 'a reading is wrong',
      advice:
        retake.length === 0
          ? 'One wrong reading can mislead: before closing, see what would change without each of them.'
          : `Take the readings again that do not fit, the meter proved first: ${retake.map((n) => `#${n}`).join(', ')}.`,
      findings: retake,
      share: weights.wrong / total,
    },
    {
      what: 'no fault now',
      advice: abnormal
        ? 'The fault may have come and gone between two readings: repeat the failed condition.'
        : 'Nothing found so far differs from a healthy vehicle. Reproduce the complaint first.',
      findings: [],
      share: weights.nothing / total,
    },
    {
      what: 'the drawing differs',
      advice:
        'This vehicle may be wired otherwise than the drawing: check for added wires, splices and changed parts. A drawing can be corrected without losing the findings.',
      findings: [],
      share: weights.differs / total,
    },
  ];
  if (!abnormal) return [open[1]!, open[0]!, open[2]!];
  return fits ? open.sort((a, b) => b.share - a.share) : open;
}

/**
 * The fewest findings to take again so that every nearly fitting fault gets its second chance: each hypothesis names the readings
 * that stand against it, and a smallest set that meets them all is a hitting set.
 */
function readingsToRetake(bench: Workbench, evidence: Evidence): number[] {
  const likely = [...bench.faults].sort((a, b) => b.weight - a.weight).slice(0, MOST_ASKED);
  const against = likely.flatMap((fault) => {
    const wrong = contradicting(bench, fault, evidence);
    return wrong === undefined ? [] : [wrong];
  });
  const fewest = Math.min(...against.map((wrong) => wrong.length));
  const nearest = against.filter((wrong) => wrong.length === fewest);
  if (nearest.length === 0) return [];
  const findings = [...new Set(nearest.flat())].sort((a, b) => a - b);
  // Universe: the nearest hypotheses; a finding covers those it stands against.
  const covers = findings.map((finding) =>
    nearest.flatMap((wrong, i) => (wrong.includes(finding) ? [i] : [])),
  );
  const chosen = minimumCover(
    nearest.length,
    covers,
    findings.map(() => 1),
  );
  return (chosen?.members ?? []).map((i) => findings[i]!).sort((a, b) => a - b);
}

/** Readings to leave out, one after the other as each fells it, until the fault fits; undefined when there would be too many. */
function contradicting(bench: Workbench, fault: Fault, evidence: Evidence): number[] | undefined {
  const wrong: number[] = [];
  for (;;) {
    const { fall } = judge(bench, [fault], withoutFindings(evidence, wrong), 'steady');
    if (fall === undefined) return wrong;
    wrong.push(fall.observation.finding);
    if (wrong.length > MOST_WRONG) return undefined;
  }
}
