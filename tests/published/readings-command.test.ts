/**
 * Worked fault examples through the program's own command, as a person would ask it. The other rows, and those about currents,
 * stand in worked-examples.test.ts. Allowed: 0.1 %, for the milliohms of wires and contacts.
 */
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Bench, bench } from '../cli/bench.js';

let program: Bench;
beforeAll(async () => {
  program = await bench();
});
afterAll(() => program.remove());

async function volts(circuit: string, red: string, black: string, ...more: string[]): Promise<number> {
  const file = fileURLToPath(new URL(`circuits/${circuit}.yaml`, import.meta.url));
  const ran = await program.run(['readings', file, '--red', red, '--black', black, '--json', ...more]);
  expect(ran.status, ran.stderr).toBe(0);
  return JSON.parse(ran.stdout).readings[0].volts[0];
}

const SERIES = 'Kuphaldt, Lessons in Electric Circuits I ch. 5 "Component failure analysis"';

test.each([
  [SERIES, 'series-9v', 'R1', 2, []],
  [SERIES, 'series-9v', 'R2', 6, []],
  [SERIES, 'series-9v', 'R3', 1, []],
  [SERIES, 'series-9v', 'R2', 9, ['--fault', 'R2:body resistance']],
  [SERIES, 'series-9v', 'R1', 0, ['--fault', 'R2:body resistance']],
  [SERIES, 'series-9v', 'R3', 0, ['--fault', 'R2:body resistance']],
  [SERIES, 'parallel-9v', 'R1', 9, []],
  [SERIES, 'parallel-9v', 'R2', 9, ['--fault', 'R2:body resistance']],
  [SERIES, 'parallel-9v', 'R3', 9, ['--fault', 'R2:body resistance']],
] as const)(
  'as %s says: %s, volts across %s are %d with %j',
  async (_source, circuit, part, expected, faults) => {
    // An open R2 leaves the voltmeter's 10 MΩ as the way round, so the other drops are microvolts, not nothing.
    const read = await volts(circuit, `${part}.1`, `${part}.2`, ...faults);
    expect(Math.abs(read - expected)).toBeLessThanOrEqual(0.001 * expected + 0.0005);
  },
);
