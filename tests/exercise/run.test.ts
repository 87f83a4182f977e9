/** An attempt: the vehicle answers, slips cost nothing, unsafe acts have consequences, the journal can be gone through again. */
import { expect, test } from 'vitest';
import { Run } from '../../src/exercise/run.js';
import { slipsOf } from '../../src/exercise/ledger.js';
import { exerciseOf, lastValue, runOf, type } from './exercise-case.js';

test('when a voltmeter is held on the unplugged connector before an open pin then full volts are read', async () => {
  const run = await runOf();
  await type(run, 'key on', 'gear reverse', 'H1');
  expect(lastValue(run)).toBe('off');
  await type(run, 'unplug X3', 'volts X3.1h');
  expect((lastValue(run) as { value: number }).value).toBeGreaterThan(11);
});

test('when the journal is gone through again then the vehicle gives every reading as before', async () => {
  const run = await runOf({ comesAndGoes: true });
  await type(
    run,
    'key on',
    'gear reverse',
    'H1',
    'volts X3.1c',
    'undo',
    'wiggle X3',
    'H1',
    'ohms F7.2 body',
    'out F7',
  );
  await type(run, 'ohms F7', 'in F7', 'wiggle X3', 'clamp W8', 'look X3');
  const again = await Run.begin(run.bench, run.exercise);
  expect(await again.again(run.recorded)).toEqual([]);
  expect(again.vehicle.setUp).toEqual(run.vehicle.setUp);
  expect(again.spent).toEqual(run.spent);
});

test('when a reading in the journal is another one then its event is named', async () => {
  const run = await runOf();
  await type(run, 'key on', 'gear reverse', 'volts X3.1h');
  const forged = run.recorded.map((entry) =>
    entry.event.type === 'found' && entry.event.reading.kind === 'volts'
      ? {
          ...entry,
          event: { ...entry.event, reading: { ...entry.event.reading, value: { value: 3.2, step: 0.01 } } },
        }
      : entry,
  );
  const again = await Run.begin(run.bench, run.exercise);
  const [strange] = await again.again(forged);
  expect(strange?.number).toBe(run.recorded.at(-1)?.number);
});

test('when a slip is taken back at once then it costs nothing, three readings long', async () => {
  const run = await runOf();
  await type(run, 'key on');
  const before = run.spent.minutes;
  await type(run, 'unplug X4', 'undo', 'volts X4.1h', 'undo');
  expect(run.spent.minutes).toBe(before);
  expect(run.vehicle.setUp.unplugged.size).toBe(0);
  await type(run, 'volts X4.1h', 'undo', 'volts X4.1h', 'undo', 'volts X4.1h', 'undo');
  expect(slipsOf(run.recorded).size).toBe(4);
  expect(run.spent.minutes).toBeGreaterThan(before);
});

test('when something is taken back after a reading then its minutes stay', async () => {
  const run = await runOf();
  await type(run, 'unplug X4', 'H2');
  const before = run.spent.minutes;
  const unplugged = run.recorded.find(({ event }) => event.type === 'did')!.number;
  await type(run, `undo ${unplugged}`);
  expect(run.spent.minutes).toBe(before);
});

test('when a jumper joins a fed line to ground then a fuse blows, it is noted, and it cannot be taken back', async () => {
  const run = await runOf();
  await type(run, 'key on');
  await type(run, 'jumper F7.2 body');
  const met = [...run.mets.values()].at(-1)!;
  expect(met.unsafe?.id).toBe('jumper-short');
  expect(met.notices.join()).toContain('F7 blows');
  expect(run.vehicle.blown).toEqual(['F7']);
  expect(await type(run, 'undo')).toEqual([expect.stringContaining('cannot be taken back')]);
  await type(run, 'unjumper', 'new F7', 'gear reverse', 'H2');
  expect(lastValue(run)).toBe('lit');
});

test('when ohms are taken on a live line then there is no reading, and it is noted', async () => {
  const run = await runOf();
  await type(run, 'key on', 'ohms F7.2 body');
  expect(run.recorded.at(-1)?.event).toMatchObject({ type: 'attempted', why: 'live line' });
  expect([...run.mets.values()].at(-1)?.unsafe?.grave).toBe(false);
});

test('when an airbag line is probed then nothing is read', async () => {
  const run = await runOf();
  const part = run.bench.circuit.parts.get('F7')!;
  (run.bench.circuit.parts as Map<string, typeof part>).set('F7', { ...part, label: 'airbag line' });
  await type(run, 'volts F7.2');
  (run.bench.circuit.parts as Map<string, typeof part>).set('F7', part);
  expect(run.recorded.at(-1)?.event).toMatchObject({ type: 'attempted', why: 'airbag line' });
});

test('when what comes and goes is wiggled then the lamp answers, and at no other place', async () => {
  const run = await runOf({ comesAndGoes: true });
  await type(run, 'key on', 'gear reverse', 'H1');
  for (let i = 0; i < 6; i++) await type(run, 'wiggle X4', 'wiggle GP2', 'wiggle F7');
  const words = () =>
    run.recorded.flatMap(({ event }) =>
      event.type === 'found' &&
      event.evidence !== 'told' &&
      event.reading.kind === 'load' &&
      event.reading.load === 'H1'
        ? [event.reading.value]
        : [],
    );
  expect(new Set(words())).toEqual(new Set(['off']));
  for (let i = 0; i < 6; i++) await type(run, 'wiggle X3');
  expect(new Set(words())).toEqual(new Set(['off', 'lit']));
});

test('when the complaint goes away and comes back then the events say so', async () => {
  const run = await runOf();
  await type(run, 'key on', 'gear reverse', 'H1', 'clean X3', 'H1');
  expect(run.recorded.at(-1)?.event).toMatchObject({ type: 'found', symptom: 'absent' });
  expect(run.vehicle.hidden).toEqual([]);
});

test('when a tool is not there then the test is refused with what there is', async () => {
  const { bench, exercise } = await exerciseOf();
  const run = await Run.begin(bench, { ...exercise, tools: new Set(['voltmeter']) });
  expect(await type(run, 'ohms F7.1 F7.2')).toEqual(['There is no ohmmeter in this exercise']);
});

test('when a hint is heard then it costs its minutes', async () => {
  const run = await runOf();
  const before = run.spent.minutes;
  const [met] = await run.meet([{ type: 'hinted', number: 1 }]);
  await run.accept([{ number: run.recorded.length + 1, at: '', event: met!.event }]);
  expect(run.spent.minutes - before).toBe(4);
});
