/** What actions do to the set-up, and which contacts they disturb. */
import { expect, test } from 'vitest';
import { edit, touches } from '../../src/session/actions.js';
import { atRest } from '../../src/session/setup.js';
import { bench } from './bench-circuit.js';

test.each<[Parameters<typeof touches>[0], readonly string[]]>([
  [{ do: 'operate', control: 'gear', position: 'reverse' }, ['S1']],
  [{ do: 'engine', state: 'running' }, []],
  [{ do: 'unplug', connector: 'X3' }, ['X3']],
  [{ do: 'plug', connector: 'X3' }, ['X3']],
  [{ do: 'take out', part: 'H2' }, ['H2', 'H2.54', 'H2.58', 'H2.31']],
  [{ do: 'fit new', part: 'F4' }, ['F4', 'F4.1', 'F4.2']],
  [{ do: 'jumper', between: ['S1.1', 'S1.2'] }, ['S1.1', 'S1.2']],
  [{ do: 'clean', at: 'GP1' }, ['GP1']],
  [{ do: 'wiggle', at: 'W3' }, ['W3', 'SP1', 'S2.30']],
  [{ do: 'reseat', at: 'X3.1' }, ['X3.1']],
  [{ do: 'repair', at: 'F4', how: 'cleaned' }, ['F4', 'F4.1', 'F4.2']],
])('when %j is done then exactly these are touched', (action, names) =>
  expect([...touches(action, bench)].sort()).toEqual([...names].sort()),
);

test('when an action and its opposite are done then the set-up is as before', () => {
  const rest = atRest(bench);
  const there = edit({ do: 'unplug', connector: 'X3' }, edit({ do: 'take out', part: 'F4' }, rest));
  const back = edit({ do: 'plug', connector: 'X3' }, edit({ do: 'refit', part: 'F4' }, there));
  expect(back).toEqual(rest);
  expect(there.out).toEqual(new Set(['F4']));
  expect(rest.out.size).toBe(0);
});
