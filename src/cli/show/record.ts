/** What is recorded, with numbers, and the set-up as it stands. */
import type { Circuit } from '../../circuit/circuit.js';
import { standingSetUp } from '../../session/decide.js';
import { describeEvent } from '../../session/describe-event.js';
import { describeSetUp } from '../../session/describe.js';
import type { Recorded } from '../../session/events.js';
import { undoneNumbers } from '../../session/observed-order.js';
import { atRest, type SetUp } from '../../session/setup.js';
import { paragraph } from './page.js';

export function showList(circuit: Circuit, recorded: readonly Recorded[]): readonly string[] {
  const undone = undoneNumbers(recorded);
  return recorded.map(({ number, event }) => {
    const before = 'before' in event && event.before !== undefined ? event.before : number;
    const words = describeEvent(circuit, event, standingSetUp(circuit, recorded, before));
    return paragraph(undone.has(number) ? `(undone) ${words}` : words, `${`#${number}`.padStart(5)}  `);
  });
}

/** One line: every control, and what is unplugged, out or bridged. */
export function showSetUp(circuit: Circuit, setUp: SetUp): string {
  const controls = [...setUp.controls].map(([control, position]) => `${control} ${position}`);
  const rest = describeSetUp(circuit, { ...setUp, controls: atRest(circuit).controls });
  return [...controls, ...rest].join(', ');
}

/** Short, for the prompt: what differs from rest. */
export function setUpMark(circuit: Circuit, setUp: SetUp): string {
  const words = describeSetUp(circuit, setUp).map((one) => one.replace(' in ', ' '));
  return words.length === 0 ? 'at rest' : words.join(', ');
}
