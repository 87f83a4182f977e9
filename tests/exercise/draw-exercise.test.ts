/** A drawn complaint is one that can be seen, that no healthy vehicle shows, and that goes away when all is mended, and not before. */
import { expect, test } from 'vitest';
import { complainedOf } from '../../src/exercise/complaint-events.js';
import { drawExercise, type Difficulty } from '../../src/exercise/draw-exercise.js';
import { withGoodWords, wordsSeen } from '../../src/exercise/good-words.js';
import { Run } from '../../src/exercise/run.js';
import { diagnose } from '../../src/diagnosis/diagnose.js';
import { workbenchOf } from '../diagnosis/session-of.js';

async function drawn(circuit: string, seed: number, difficulty: Difficulty) {
  const bench = await workbenchOf(circuit);
  const exercise = (await drawExercise(bench, seed, difficulty))!;
  const run = await Run.begin(bench, { ...exercise, hash: '' });
  return { bench, exercise, run, one: run.complained[0]! };
}

test('when a turn signal is dead then it is well again when it flashes', async () => {
  const bench = await workbenchOf('turn-hazard');
  const complained = complainedOf(bench.circuit, ['H1 off when hazard on']);
  const [one] = await withGoodWords(bench, 1, complained);
  expect(one!.good).toEqual(new Set(['flashes']));
});

test.each([1, 2, 3, 4, 5])(
  'when a fuel gauge is drawn (seed %i) then the complaint says that something is wrong',
  async (seed) => {
    const { bench, run } = await drawn('fuel-gauge', seed, 2);
    const { load, word, when } = run.complained[0]!;
    await run.accept(
      (await run.meet([{ type: 'found', reading: { kind: 'load', load, value: word }, when }])).map(
        ({ event }, i) => ({
          number: i + 1,
          at: '',
          event,
        }),
      ),
    );
    expect(diagnose(bench, run.case).abnormal).toBe(true);
  },
);

test.each([21, 22, 23])(
  'when one of two faults is mended (seed %i) then the complaint is still there',
  async (seed) => {
    const { bench, exercise, one } = await drawn('door-locks', seed, 5);
    const look = {
      type: 'found',
      reading: { kind: 'load', load: one.load, value: one.word },
      when: one.when,
    } as const;
    for (const fault of exercise.faults) {
      const seen = await wordsSeen(bench, { faults: [fault], seed: exercise.seed }, [one.setUp], look);
      expect([...seen].some((word) => one.good.has(word))).toBe(false);
    }
  },
);
