/** What one fault alone does to an otherwise whole vehicle in a condition. */
import { beforeAll, expect, test } from 'vitest';
import { Spoils } from '../../src/diagnosis/spoils.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import type { AppliedFault } from '../../src/network/solver-types.js';
import { atRest } from '../../src/session/setup.js';
import { workbenchOf } from './session-of.js';

let bench: Workbench;
let inReverse: Spoils;
let atNeutral: Spoils;
beforeAll(async () => {
  bench = await workbenchOf('reversing-lamps');
  const rest = atRest(bench.circuit);
  const controls = new Map([
    ['key', 'on'],
    ['gear', 'reverse'],
  ]);
  inReverse = new Spoils(bench, [{ ...rest, controls }]);
  atNeutral = new Spoils(bench, [rest]);
});

const applied = (id: string, severity: number): AppliedFault =>
  bench.faults.find((fault) => fault.id === id)!.apply(severity);

test.each([
  ['a filament is broken', 'H1:1 lead open', 0, true],
  ['a feed wire lies on the body', 'S2.2 short', 0.001, true],
  ['a feed wire leaks through damp dirt', 'S2.2 short', 1e5, false],
  ['a ground wire lies on the body', 'H1.31 short', 0.001, false],
  ['a pin is open', 'X2.1 resistance', 1e11, true],
  ['a pin has milliohms', 'X2.1 resistance', 0.005, false],
] as const)('when %s then that it matters in reverse is judged rightly', (_what, id, severity, matters) => {
  expect(inReverse.by(applied(id, severity))).toBe(matters);
});

test('when nothing is switched on then a broken filament does not matter', () => {
  expect(atNeutral.by(applied('H1:1 lead open', 0))).toBe(false);
});

test('when the feed is open before a short then the short does not show; with a lamp dead beyond the short it does', () => {
  const short = applied('S2.2 short', 0.001);
  expect(inReverse.showsBeside(applied('X2.1 resistance', 1e11), short)).toBe(false);
  expect(inReverse.showsBeside(applied('H1:1 lead open', 0), short)).toBe(true);
});
