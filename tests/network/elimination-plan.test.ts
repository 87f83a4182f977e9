/** The order of elimination, where it decides how much work a solve is. */
import { expect, test } from 'vitest';
import { planElimination } from '../../src/network/elimination-plan.js';
import { BODY } from '../../src/network/network.js';

/** A bar that feeds so many lamps, each behind one joint; the lamps end on body. */
function barWith(lamps: number) {
  const bar = BODY + 1;
  const joints = Array.from({ length: lamps }, (_, i) => bar + 1 + i);
  const edges = joints.flatMap((joint) => [bar, joint, joint, BODY]);
  return { bar, joints, plan: planElimination(bar + 1 + lamps, edges, joints) };
}

test('when a bar feeds many lamps then it stays with them: eliminated before, it would join each lamp to each other', () => {
  const { bar, joints, plan } = barWith(12);
  expect([...plan.tail]).toContain(bar);
  // In the tail each lamp has the bar and body, not the other eleven lamps.
  expect(plan.slotCount - plan.firstTailSlot).toBeLessThanOrEqual(3 * joints.length);
});

test('when it feeds two then it goes first', () => {
  const { bar, plan } = barWith(2);
  expect([...plan.tail]).not.toContain(bar);
});
