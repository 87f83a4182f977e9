/** Properties of the verdicts: a true finding never takes the true fault away, and order does not matter. */
import { beforeAll, describe, expect, test } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.js';
import { gather } from '../../src/diagnosis/evidence.js';
import { judge } from '../../src/diagnosis/verdict.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { random } from '../../src/exercise/random.js';
import type { Case } from '../../src/session/case.js';
import type { Event } from '../../src/session/events.js';
import { foldCase } from '../../src/session/fold.js';
import { suspectIds, workbenchOf } from './session-of.js';
import { simulate } from './simulated.js';

const SEEDS = Array.from({ length: 5 }, (_, i) => 507 + i);

function caseOf(bench: Workbench, events: readonly Event[]): Case {
  return foldCase(
    bench.circuit,
    events.map((event, i) => ({ number: i + 1, at: '', event })),
  );
}

function shuffled<T>(list: readonly T[], seed: number): T[] {
  const draw = random(seed);
  const left = [...list];
  const out: T[] = [];
  while (left.length > 0) out.push(...left.splice(Math.floor(draw() * left.length), 1));
  return out;
}

describe.each(['reversing-lamps', 'two-grounds', 'work-lamps'])('on %s', (name) => {
  let bench: Workbench;
  beforeAll(async () => {
    bench = await workbenchOf(name);
  });

  test('when true findings come in any order, then the true fault stays', async () => {
    const lost: string[] = [];
    for (const seed of SEEDS) {
      const { before, findings, hidden } = await simulate(bench, seed, 1, 7);
      const fault = bench.faults.find(({ id }) => id === hidden[0]!.id)!;
      for (const order of [0, 1, 2]) {
        const events = [...before, ...shuffled(findings, seed * 10 + order)];
        const { fall } = judge(bench, [fault], gather(bench, caseOf(bench, events)));
        if (fall !== undefined) lost.push(`seed ${seed}, order ${order}: ${fault.id}`);
      }
    }
    expect(lost).toEqual([]);
  });

  test('when independent findings change places, then the same suspects are left', async () => {
    for (const seed of SEEDS) {
      const { before, findings } = await simulate(bench, seed, 1, 6);
      const [first, second] = [0, 1].map((order) => {
        const events = [...before, ...shuffled(findings, seed + order)];
        return suspectIds(diagnose(bench, caseOf(bench, events))).sort();
      });
      expect(second, `seed ${seed}`).toEqual(first);
    }
  });

  test('when a session grows finding by finding, then it ends as when read at once', async () => {
    for (const seed of SEEDS.slice(0, 3)) {
      const { before, findings } = await simulate(bench, seed, 1, 6);
      const fresh = await workbenchOf(name);
      let grown: string[] = [];
      for (let n = 1; n <= findings.length; n++)
        grown = suspectIds(diagnose(bench, caseOf(bench, [...before, ...findings.slice(0, n)])));
      const atOnce = suspectIds(diagnose(fresh, caseOf(fresh, [...before, ...findings])));
      expect(grown, `seed ${seed}`).toEqual(atOnce);
    }
  });
});
