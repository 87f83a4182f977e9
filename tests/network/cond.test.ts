import { describe, expect, test } from 'vitest';
import { coilConds, permits } from '../../src/network/cond.js';
import type { Cond, SingleCond } from '../../src/network/network.js';

const key: SingleCond = { kind: 'control', control: 'key', positions: new Set(['on', 'start']) };
const coil: SingleCond = { kind: 'coil', coil: 3, pullInVolts: 8, dropOutVolts: 2, rest: 'open' };
const at = (position: string, engine: 'off' | 'running' = 'off', rested = 0) => ({
  controls: new Map([['key', position]]),
  engine,
  rested,
});

describe('the condition of a contact', () => {
  test('when a control decides then its positions do, and a control nobody knows is none of them', () => {
    expect(permits(key, at('start'))).toBe(true);
    expect(permits(key, at('off'))).toBe(false);
    expect(permits(key, { controls: new Map(), engine: 'off' })).toBe(false);
  });

  test('when the engine decides then its state does', () => {
    const cond: Cond = { kind: 'engine', state: 'running' };
    expect([at('off'), at('off', 'running')].map((one) => permits(cond, one))).toEqual([false, true]);
  });

  test('when rest decides then the minutes do, and none said are none', () => {
    const before: Cond = { kind: 'rested', minutes: 15, state: 'before' };
    const after: Cond = { kind: 'rested', minutes: 15, state: 'after' };
    const minutes = [0, 14, 15, 60];
    expect(minutes.map((rested) => permits(before, at('off', 'off', rested)))).toEqual([
      true,
      true,
      false,
      false,
    ]);
    expect(minutes.map((rested) => permits(after, at('off', 'off', rested)))).toEqual([
      false,
      false,
      true,
      true,
    ]);
    expect(permits(before, { controls: new Map(), engine: 'off' })).toBe(true);
  });

  test('when several must hold then one that does not is enough, and coils are left to the solver', () => {
    const both: Cond = { kind: 'all', of: [key, coil] };
    expect(permits(both, at('on'))).toBe(true);
    expect(permits(both, at('off'))).toBe(false);
    expect(coilConds(both)).toEqual([coil]);
    expect(coilConds(coil)).toEqual([coil]);
    expect(coilConds(key)).toEqual([]);
  });
});
