/** Words that simulated people use for what they see. */
import { expect, test } from 'vitest';
import { random } from '../../src/exercise/random.js';
import { readOut } from '../../src/exercise/read-out.js';
import type { Reading } from '../../src/session/events.js';

const LAMP: Reading = { kind: 'test lamp', red: 'X1.1h', black: 'bat-', value: 'off', lamp: 'filament' };
const ACROSS = { a: 1, b: 0, scale: 12, magnitude: true, load: undefined } as const;
const PEOPLE = 300;

function words(volts: number): Map<unknown, number> {
  const draw = random(1);
  const said = new Map<unknown, number>();
  for (let i = 0; i < PEOPLE; i++) {
    const seen = readOut(draw, LAMP, ACROSS, volts, undefined, undefined);
    const value = seen !== undefined && 'value' in seen ? seen.value : undefined;
    said.set(value, (said.get(value) ?? 0) + 1);
  }
  return said;
}

test('when a test lamp has nearly all its volts then hardly anybody calls it dim', () => {
  const said = words(11);
  expect(said.get('lit')).toBeGreaterThan(0.9 * PEOPLE);
  expect([...said.keys()].every((word) => word === 'lit' || word === 'dim')).toBe(true);
});

test('when it has a little more than half then people differ', () => {
  const said = words(8);
  expect(said.get('lit')).toBeGreaterThan(0);
  expect(said.get('dim')).toBeGreaterThan(0);
});
