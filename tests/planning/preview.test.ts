import { beforeAll, expect, test } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { advise } from '../../src/planning/next.js';
import { previewOf } from '../../src/planning/preview.js';
import { foldCase } from '../../src/session/fold.js';
import { parseLine } from '../../src/session/parse-line.js';
import { recordedOf, workbenchOf } from '../diagnosis/session-of.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await workbenchOf('stop-tail');
}, 60_000);

const oneLamp = ['fails H1.54 when pedal down', 'works H2.54 H3 when pedal down'];

function previewed(lines: readonly string[], typed: string) {
  const recorded = recordedOf(bench, lines);
  const session = foldCase(bench.circuit, recorded);
  const diagnosis = diagnose(bench, session);
  const line = parseLine(typed, bench.circuit, recorded);
  if (line.kind !== 'events') throw new Error(JSON.stringify(line));
  const [best] = advise(bench, session, diagnosis).tests;
  return { best: best!, preview: previewOf(bench, session, diagnosis, typed, line.events) };
}

test('when a person prefers another test then it is shown in the failed condition, with its outcomes and what it costs', () => {
  const { best, preview } = previewed(oneLamp, 'volts H1.54 1');
  if (typeof preview === 'string') throw new Error(preview);
  expect(preview.first).toEqual(['pedal down']);
  expect(preview.outcomes.length).toBeGreaterThan(1);
  expect(preview.outcomes[0]!.means).toMatch(/leaves .*; speaks against /);
  expect(preview.expectedMinutes).toBeGreaterThanOrEqual(best.expectedMinutes! - 0.01);
});

test('when it tells nothing then it has one outcome and no road begins with it', () => {
  const { preview } = previewed(oneLamp, 'H4 off');
  if (typeof preview === 'string') throw new Error(preview);
  expect(preview.outcomes.length).toBe(1);
  expect(preview.expectedMinutes).toBeUndefined();
});

test('when only a step is named then the load that failed is watched after it', () => {
  const { preview } = previewed(oneLamp, 'jumper S4');
  if (typeof preview === 'string') throw new Error(preview);
  expect(preview.line).toBe('H1.54');
  expect(preview.cautions.map(({ id }) => id)).toContain('jumper-fused');
});

test('when a test is dangerous then its caution is shown with it', () => {
  const { preview } = previewed(oneLamp, 'ohms F4.1 body 1');
  if (typeof preview === 'string') throw new Error(preview);
  expect(preview.cautions.map(({ id }) => id)).toContain('ohms-live');
});

test('when nothing failed yet then there is nothing to show', () => {
  expect(previewed([...oneLamp], 'H4 off').preview).not.toBe('nothing failed');
  const session = foldCase(bench.circuit, []);
  expect(previewOf(bench, session, diagnose(bench, session), 'H4', [])).toBe('nothing failed');
});
