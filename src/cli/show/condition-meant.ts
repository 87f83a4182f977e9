/** A finding that nothing explains, taken where nothing had failed before: its condition may have been forgotten. */
import type { Circuit } from '../../circuit/circuit.js';
import type { Diagnosis } from '../../diagnosis/diagnosis-types.js';
import { proveRepair } from '../../diagnosis/proof-of-repair.js';
import { listWords } from '../../report/layout.js';
import type { Step } from '../../session/case.js';
import { describeSetUp } from '../../session/describe.js';
import { atRest, type SetUp } from '../../session/setup.js';
import { paragraph } from './page.js';

/** @param numbers of the events just recorded, which are in the timeline */
export function showConditionMeant(
  circuit: Circuit,
  timeline: readonly Step[],
  { findings }: Diagnosis,
  numbers: readonly number[],
): readonly string[] {
  const abnormal = findings.filter((one) => one.abnormal).map((one) => one.number);
  const earlier = new Set(abnormal.filter((number) => !numbers.includes(number)));
  const failed = proveRepair(timeline, earlier).conditions.map(({ finding }) =>
    controlWords(circuit, finding.setUp),
  );
  if (failed.length === 0) return [];
  return timeline.flatMap((step) => {
    if (step.kind !== 'finding') return [];
    const { number, setUp } = step.finding;
    const words = controlWords(circuit, setUp);
    if (!numbers.includes(number) || !abnormal.includes(number) || failed.includes(words)) return [];
    return [
      paragraph(
        `#${number} was taken with ${words}; what failed before, with ${listWords([...new Set(failed)])}. If #${number} was meant there: undo ${number}, then type it again with "when" and the condition.`,
      ),
    ];
  });
}

function controlWords(circuit: Circuit, setUp: SetUp): string {
  const words = describeSetUp(circuit, { ...atRest(circuit), controls: setUp.controls });
  return words.length === 0 ? 'everything at rest' : words.join(', ');
}
