/** Sharing out by circuit: every task once, a thread stays with its circuit, nobody waits while there is work. */
import { expect, test } from 'vitest';
import { Queue } from '../../../src/cli/replay/queue.js';

const tasks = ['a', 'b', 'a', 'c', 'b', 'a'].map((circuit) => ({ circuit }));

test('when one thread takes all then circuit by circuit, in the order given', () => {
  const queue = new Queue(tasks);
  const taken: number[] = [];
  for (let at: string | undefined; ;) {
    const index = queue.take(at);
    if (index === undefined) break;
    taken.push(index);
    at = tasks[index]!.circuit;
  }
  expect(taken).toEqual([0, 2, 5, 1, 4, 3]);
  expect(queue.left).toBe(0);
});

test('when a second thread comes then it begins another circuit, and helps with the longest when all are begun', () => {
  const queue = new Queue(tasks);
  expect([queue.take(undefined), queue.take(undefined), queue.take(undefined)]).toEqual([0, 1, 3]);
  expect(queue.take('c')).toBe(2);
  expect(queue.left).toBe(2);
});
