/** The first session of the README, typed as it stands there by somebody who answers none of the opening questions. */
import { readFileSync } from 'node:fs';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { bench, person, shown, type Bench } from './bench.js';

const PAGE = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
const LINES = /^## A first session[\s\S]*?```text\n([\s\S]*?)```/m
  .exec(PAGE)![1]!
  .trim()
  .split('\n')
  .map((line) => line.replace(/\s+#.*/, ''));

let at: Bench;
beforeEach(async () => {
  at = await bench();
});
afterEach(() => at.remove());

test('when the ten lines of the README are typed then they end at a confirmed stop switch, repaired and verified', async () => {
  expect(LINES).toHaveLength(10);
  const asker = person([...LINES.slice(0, -1), '', LINES.at(-1)!]);
  const ran = await at.run(['start', 'stop-tail'], { asker });
  expect(ran.status, shown(ran)).toBe(0);
  expect(ran.stdout.replace(/\s+/g, ' ')).toMatch(
    /CAUSE \(CONFIRMED\).*contact 1-2 of S4 \(stop switch\).*VERIFICATION Verified/,
  );
});
