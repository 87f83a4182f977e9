/** Marks: by what was known, not by luck; each lost mark with its event. */
import { beforeAll, expect, test } from 'vitest';
import { markOf } from '../../src/exercise/mark.js';
import { planned, type Road } from '../../src/exercise/planner-road.js';
import { Run } from '../../src/exercise/run.js';
import { CAREFUL, exerciseOf, runOf, type } from './exercise-case.js';

let par: Road;
beforeAll(async () => {
  const { bench, exercise } = await exerciseOf();
  par = await planned(await Run.begin(bench, exercise));
}, 120_000);

const marked = async (...lines: string[]) => {
  const run = await runOf();
  await type(run, ...lines);
  return markOf(run, par);
};

test('when the fault is found, repaired and proved then nearly all marks are given', async () => {
  const mark = await marked(...CAREFUL);
  expect(mark.cured).toBe(true);
  expect(mark.items.found.got).toBe(25);
  expect(mark.items.verified.got).toBe(10);
  expect(mark.items.claims.got).toBe(10);
  expect(mark.total).toBeGreaterThan(75);
});

test('when the right part is renewed by luck then choice, proof and claims are lost, each at its event', async () => {
  const mark = await marked('cause X3', 'clean X3', 'done');
  expect(mark.items.found.got).toBe(25);
  expect(mark.items.choices.got).toBe(0);
  expect(mark.items.verified.got).toBe(0);
  expect(mark.items.claims.got).toBe(0);
  expect(mark.total).toBeLessThan(50);
  for (const loss of mark.losses.filter(({ item }) => item === 'claims' || item === 'choices'))
    expect(loss.event?.words).toMatch(/X3/);
});

test('when a part is renewed for nothing then its event is named', async () => {
  const mark = await marked(
    'H1 when key on, gear reverse',
    'new H1',
    'H1 when key on, gear reverse',
    ...CAREFUL.slice(1),
  );
  const loss = mark.losses.find(({ item }) => item === 'parts');
  expect(loss?.event?.words).toContain('fit a new item: H1');
  expect(mark.minutes).toBeGreaterThan((await marked(...CAREFUL)).minutes);
});

test('when a guess happens to be right then it is marked as a guess all the same', async () => {
  const mark = await marked(
    'H1 when key on, gear reverse',
    'clean X3',
    'H1 when key on, gear reverse',
    'cause X3',
    'done',
  );
  expect(mark.cured).toBe(true);
  const loss = mark.losses.find(({ item }) => item === 'parts');
  expect(loss?.event?.words).toContain('clean X3');
  expect(loss?.why).toContain('happened to mend');
  // Nor does it count that it was quick and cheap.
  expect(mark.minutes).toBeLessThan(mark.budget.minutes);
  expect(mark.items.economy.got).toBeLessThan(2);
});

test('when damage is seen and mended then that is no guess', async () => {
  const seen = await runOf();
  await type(
    seen,
    'H1 when key on, gear reverse',
    'look X3',
    'clean X3',
    'H1 when key on, gear reverse',
    'cause X3',
    'done',
  );
  const look = seen.recorded.find(
    ({ event }) => event.type === 'found' && event.reading.kind === 'look',
  )!.event;
  expect(look).toMatchObject({ reading: { value: 'corroded' } });
  expect(markOf(seen, par).items.parts.got).toBe(10);
});

test('when a meter has shown that a fuse is blown then a new one is no guess', async () => {
  const { bench } = await exerciseOf({ circuit: 'stop-tail', fault: 'B1.1 short' });
  const wire = bench.circuit.wires.find(({ from }) => from === 'S4.2')!.id;
  const run = await runOf({
    circuit: 'stop-tail',
    fault: `${wire} short`,
    severity: 0.001,
    complaint: ['fails H1.54 H2.54 H3 when pedal down'],
  });
  await type(run, 'H1.54 when pedal down', 'pedal down', 'volts F4.1', 'volts F4.2', 'prove volts', 'out F4');
  await type(
    run,
    'ohms F4.1i F4.2i',
    'prove ohms',
    'ohms F4.2 body',
    `repair ${wire} short`,
    'new F4',
    'H1.54',
  );
  const mark = markOf(run, par);
  expect(mark.cured).toBe(true);
  const renewal = mark.losses.filter(({ event }) => event?.words.includes('fit a new item: F4'));
  expect(renewal.map(({ item }) => item)).not.toContain('parts');
  expect(renewal.map(({ item }) => item)).not.toContain('choices');
});

test('when a feed is sparked to ground then no more than 30 marks are left, and the jumper is named', async () => {
  const mark = await marked('key on', 'jumper F7.2 body', 'unjumper', 'new F7', 'key off', ...CAREFUL);
  expect(mark.cured).toBe(true);
  expect(mark.total).toBe(30);
  expect(
    mark.losses
      .filter(({ item }) => item === 'safety')
      .every(({ event }) => event?.words.startsWith('jumper')),
  ).toBe(true);
});

test('when something is said to be cleared that still explains every reading then that claim costs marks, and a right one does not', async () => {
  const [first, ...rest] = CAREFUL as [string, ...string[]];
  const wrong = await marked(first, 'clears X3', ...rest);
  expect(wrong.losses.find(({ item }) => item === 'claims')?.event?.words).toContain(
    'said to be cleared: X3',
  );
  // The right lamp is lit: whatever both share is not open.
  const right = await marked(first, 'H2 when key on, gear reverse', 'clears F7 open', ...rest);
  expect(right.items.claims.got).toBe(10);
});

test('when slips are taken back then the marks are the same', async () => {
  const plain = await marked(...CAREFUL);
  const [first, ...rest] = CAREFUL as [string, ...string[]];
  const slips = ['unplug X4', 'undo', 'volts GP2', 'undo'];
  const slipped = await marked(first, 'gibberish', ...rest.slice(0, 5), ...slips, ...rest.slice(5));
  expect(slipped.items).toEqual(plain.items);
  expect(slipped.total).toBe(plain.total);
  expect(slipped.minutes).toBe(plain.minutes);
});

test('when slips are taken back before readings then those differ by their digits, and the marks hardly', async () => {
  const plain = await marked(...CAREFUL);
  const [first, ...rest] = CAREFUL as [string, ...string[]];
  const slipped = await marked(first, 'unplug X4', 'undo', 'volts GP2', 'undo', ...rest);
  expect(Math.abs(slipped.total - plain.total)).toBeLessThan(0.5);
  // Minutes and money count as far as the choices were sound.
  const { choices, economy } = slipped.items;
  expect(slipped.items).toEqual({ ...plain.items, choices, economy });
  expect(slipped.minutes).toBe(plain.minutes);
});

test('when nothing is done then no mark is given', async () => {
  expect((await marked('done')).total).toBe(0);
});

test('when an attempt is marked twice then both marks are the same to the last digit', async () => {
  const run = await runOf();
  await type(run, ...CAREFUL);
  const once = JSON.stringify(markOf(run, par));
  const again = await Run.begin(run.bench, run.exercise);
  await again.again(run.recorded);
  expect(JSON.stringify(markOf(again, par))).toBe(once);
});
