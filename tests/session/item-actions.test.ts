/** Swaps, known-good items, lamps in place of fuses and waits: what they do to the set-up, and what they disturb. */
import { describe, expect, test } from 'vitest';
import { edit, touches } from '../../src/session/actions.js';
import type { Action } from '../../src/session/events.js';
import { unlikeWhy } from '../../src/session/like-for-like.js';
import { foldCase } from '../../src/session/fold.js';
import { atRest, type SetUp } from '../../src/session/setup.js';
import { circuitOf, kinds, KINDS_YAML, recordKinds } from './kinds-circuit.js';

const rest = atRest(kinds);
const after = (...actions: readonly Action[]): SetUp =>
  actions.reduce((setUp, one) => edit(one, setUp), rest);
const swap = (first: string, second: string): Action => ({ do: 'swap', parts: [first, second] });
const known = (part: string): Action => ({ do: 'fit known-good', part });
const out = (part: string): Action => ({ do: 'take out', part });
const refit = (part: string): Action => ({ do: 'refit', part });
const lamp = (part: string): Action => ({ do: 'lamp in place', part });

describe('items', () => {
  test('when two are swapped then each sits at the other, and a second swap puts both back', () => {
    expect([...after(swap('H1', 'H2')).fitted]).toEqual([
      ['H1', 'H2'],
      ['H2', 'H1'],
    ]);
    expect(after(swap('H1', 'H2'), swap('H2', 'H1'))).toEqual(rest);
  });
  test('when three are swapped in turn then each item is at one place', () => {
    const { fitted } = after(swap('H1', 'H2'), swap('H2', 'H3'));
    expect(Object.fromEntries(fitted)).toEqual({ H1: 'H2', H2: 'H3', H3: 'H1' });
  });
  test('when a swapped item was out and is refitted then it is the same one again', () => {
    expect(after(swap('H1', 'H2'), out('H1'), refit('H1'))).toEqual(after(swap('H1', 'H2')));
  });
  test('when a known-good item was fitted then refitting puts the own one back', () => {
    expect([...after(known('H1')).fitted]).toEqual([['H1', 'known-good']]);
    expect(after(known('H1'), refit('H1'))).toEqual(rest);
    expect(after(out('H1'), known('H1'))).toEqual(after(known('H1')));
    expect(after(known('H1'), out('H1'), refit('H1'))).toEqual(rest);
  });
  test('when a new item is fitted over a known-good one then the place has an item of its own', () => {
    expect(after(known('H1'), { do: 'fit new', part: 'H1' })).toEqual(rest);
  });
});

describe('test lamps in place of fuses', () => {
  test('when one is hung there then the fuse is out, and stays out when the lamp goes', () => {
    const there = after(lamp('F1'));
    expect(there).toMatchObject({ out: new Set(['F1']), lamps: new Set(['F1']) });
    const gone = edit({ do: 'remove lamp', part: 'F1' }, there);
    expect(gone).toEqual(after(out('F1')));
    expect(edit(refit('F1'), gone)).toEqual(rest);
  });
  test.each<Action['do']>(['refit', 'fit new', 'fit known-good'])(
    'when an item goes in all the same (%s) then no lamp is left beside it',
    (what) => expect(after(lamp('F1'), { do: what, part: 'F1' } as Action).lamps.size).toBe(0),
  );
});

describe('waiting', () => {
  test('when a control is worked for one finding then what slept is awake after it', () => {
    const fold = (...lines: readonly string[]) => foldCase(kinds, recordKinds(lines));
    const rested = (...lines: readonly string[]) =>
      fold(...lines).timeline.flatMap((step) => (step.kind === 'finding' ? [step.finding.setUp.rested] : []));
    expect(rested('wait 20', 'volts F1.1 0', 'volts F1.1 12.1 when key on', 'volts F1.1 0')).toEqual([
      20, 0, 0,
    ]);
    expect(rested('wait 20', 'volts F1.1 0 when key off', 'volts F1.1 0')).toEqual([20, 20]);
    expect(fold('wait 20', 'H1 lit when key on').now.rested).toBe(0);
  });
  const wait: Action = { do: 'wait', minutes: 20 };
  test('when waits follow each other then the minutes add up', () => {
    expect(after(wait, wait).rested).toBe(40);
  });
  test.each<Action>([
    { do: 'operate', control: 'key', position: 'on' },
    { do: 'engine', state: 'running' },
    out('F1'),
    known('H1'),
    swap('H1', 'H2'),
    lamp('F1'),
    { do: 'jumper', between: ['F1.1', 'F1.2'] },
    { do: 'wiggle', at: 'W3' },
  ])('when %j follows then the electronics are awake', (action) =>
    expect(after(wait, action).rested).toBe(0),
  );
  test.each<Action>([
    { do: 'operate', control: 'key', position: 'off' },
    { do: 'engine', state: 'off' },
  ])('when %j changes nothing then they sleep on', (action) => expect(after(wait, action).rested).toBe(20));
});

test.each<[Action, readonly string[]]>([
  [swap('H1', 'H2'), ['H1', 'H1.1', 'H1.31', 'H2', 'H2.1', 'H2.31']],
  [known('F1'), ['F1', 'F1.1', 'F1.2']],
  [lamp('F1'), ['F1', 'F1.1', 'F1.2']],
  [{ do: 'remove lamp', part: 'F1' }, ['F1', 'F1.1', 'F1.2']],
  [{ do: 'wait', minutes: 5 }, []],
  [{ do: 'reset', part: 'F9' }, ['F9']],
])('when %j is done then exactly these are touched', (action, names) =>
  expect([...touches(action, kinds)].sort()).toEqual([...names].sort()),
);

describe('like for like', () => {
  const others = circuitOf(
    KINDS_YAML.replace('name: button, control: button', 'name: button, control: key')
      .replace('{between: [1, 2], closed: [pressed]}', '{between: [30, 15], closed: [off]}')
      .replaceAll('S2.1,', 'S2.30,')
      .replaceAll('S2.2,', 'S2.15,'),
  );
  test('when switches have the same terminals then it does not matter what works them', () => {
    expect(unlikeWhy(others, 'S1', 'S2')).toBeUndefined();
    expect(unlikeWhy(kinds, 'S1', 'S2')).toBe('their contacts differ');
  });
  test('when ratings differ then they are named', () => {
    expect(unlikeWhy(kinds, 'H1', 'H2')).toBeUndefined();
    expect(unlikeWhy(kinds, 'F1', 'F3')).toBe('amps 10 against 20');
    expect(unlikeWhy(kinds, 'F9', 'F10')).toBe('reset manual against automatic');
  });
});
