import { beforeAll, expect, test } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { alike } from '../../src/planning/alike.js';
import { foldCase } from '../../src/session/fold.js';
import { recordedOf, workbenchOf } from '../diagnosis/session-of.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await workbenchOf('stop-tail');
}, 60_000);

function groups(lines: readonly string[]) {
  const session = foldCase(bench.circuit, recordedOf(bench, lines));
  return alike(bench, session, diagnose(bench, session));
}

const oneLamp = ['fails H1.54 when pedal down', 'works H2.54 H3 when pedal down'];

test('when a joint and the wire behind it have no point between them then they are one group with the crimp named', () => {
  const together = groups(oneLamp).find(({ faults }) => faults.some(({ site }) => site === 'SP3/W9'))!;
  expect(together.faults.map(({ site }) => site)).toContain('W9');
  expect(together.access.join()).toContain('W9 at SP3');
  expect(together.lookHere.join()).toMatch(/corroded or cold joint/);
  expect(together.lookHere.join()).toMatch(/tail loom/);
});

test('when a probe fits between two suspects then they are in no group together', () => {
  for (const { faults } of groups(oneLamp)) {
    const sites = faults.map(({ site }) => site);
    expect(sites.includes('X3.1') && sites.includes('H1.31')).toBe(false);
    expect(new Set(faults.map(({ repair }) => repair.how)).size).toBeGreaterThan(1);
  }
});

test('when nothing was found wrong that several repairs could mend then there is no group', () => {
  expect(groups([])).toEqual([]);
});
