/** What is as it should be is no failure: a turn signal flashes, a stop lamp does not. Common practice in the trade, no source. */
import { expect, test } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.js';
import { answersFor, isGoodSight } from '../../src/diagnosis/good-sights.js';
import { conditionsOf, findingsOf } from '../../src/planning/condition.js';
import { foldCase } from '../../src/session/fold.js';
import { recordedOf, workbenchOf } from './session-of.js';

test('when one side fails and the others flash then only the set-up of that side counts as failed', async () => {
  const bench = await workbenchOf('turn-hazard');
  const lines = [
    ...['key on', 'turn lever left', 'H1 off', 'H3 off'],
    ...['turn lever right', 'H4 flashes', 'H6 flashes'],
    ...['turn lever middle', 'hazard on', 'H1 flashes', 'H4 flashes'],
  ];
  const session = foldCase(bench.circuit, recordedOf(bench, lines));
  const conditions = conditionsOf(bench, session, diagnose(bench, session));
  expect(conditions.map(({ setUp }) => setUp.controls.get('turn lever'))).toEqual(['left']);
  expect(conditions[0]!.failed).toEqual(['H3', 'H1']);
});

test.each([
  ['turn-hazard', ['key on', 'turn lever left'], 'H1 flashes', true],
  ['turn-hazard', ['key on', 'turn lever left'], 'H1 lit', true],
  ['turn-hazard', ['key on', 'turn lever left'], 'H1 dim', false],
  ['turn-hazard', ['key on', 'turn lever left'], 'H4 flashes', false],
  ['turn-hazard', ['key on'], 'H1 flashes', false],
  ['stop-tail', ['pedal down'], 'H1.54 flashes', false],
] as const)(
  'when on %s with %s it is said that %s then that is good: %s',
  async (name, moves, seen, good) => {
    const bench = await workbenchOf(name);
    const [finding] = findingsOf(foldCase(bench.circuit, recordedOf(bench, [...moves, seen])));
    expect(isGoodSight(bench, finding!)).toBe(good);
  },
);

test.each([
  ['turn-hazard', ['key on', 'turn lever left'], 'H1', 'flashes, lit, dim, off'],
  ['turn-hazard', ['key on', 'turn lever left'], 'H4', 'lit, dim, off'],
  ['starter', [], 'K1', 'clicks, chatters, silent'],
] as const)(
  'when on %s with %s it is asked what %s does then the words are: %s',
  async (name, moves, load, words) => {
    const bench = await workbenchOf(name);
    const { now } = foldCase(bench.circuit, recordedOf(bench, moves));
    expect(answersFor(bench, load, now).join(', ')).toBe(words);
  },
);
