/** What a module reports of its inputs, against the circuit that feeds them. */
import { expect, test } from 'vitest';
import { gather } from '../../src/diagnosis/evidence.js';
import { judge } from '../../src/diagnosis/verdict.js';
import { foldCase } from '../../src/session/fold.js';
import { kinds } from '../session/kinds-circuit.js';
import { Asked } from './asked.js';
import { recordedOf, workbenchOf } from './session-of.js';

const asked = new Asked(kinds);
const wire = kinds.wires.find(({ from }) => from === 'A1.2')!.id;
const feed = kinds.wires.find(({ to }) => to === 'A1.30')!.id;

test('when the button is pressed then the input reads so, unless its wire is broken', () => {
  const pressed = (value: string) => ['button pressed', `scan A1.2 ${value}`];
  expect(asked.agrees(pressed('pressed'))).toBe(true);
  expect(asked.agrees(pressed('released'))).toBe(false);
  expect(asked.agrees(pressed('released'), asked.open(wire))).toBe(true);
  expect(asked.agrees(pressed('pressed'), asked.open(wire))).toBe(false);
});

test('when the button is at rest then the input reads so, unless its wire touches the body', () => {
  expect(asked.agrees(['scan A1.2 released'])).toBe(true);
  expect(asked.agrees(['scan A1.2 pressed'])).toBe(false);
  expect(asked.agrees(['scan A1.2 pressed'], asked.short(wire))).toBe(true);
});

test('when it answers then it is supplied; when it does not, that only ranks', () => {
  const dead = asked.open(feed);
  expect(asked.agrees(['scan A1.2 released'], dead)).toBe(false);
  expect(asked.agrees(['scan A1.2 no answer'], dead)).toBe(true);
  expect(asked.agrees(['scan A1.2 no answer'])).toBe(false);
  const [silent] = asked.observations('prove scan', 'scan A1.2 no answer');
  expect(silent).toMatchObject({ kind: 'answer', hard: false });
  const answered = asked.observations('scan A1.2 released');
  expect(answered.map(({ kind, hard }) => [kind, hard])).toEqual([
    ['scan', true],
    ['answer', true],
  ]);
});

test('when the input reads volts then they are those of the sender, and full scale is the end of the scale', () => {
  // 1 kohm to 12.6 V over 250 ohm: 2.5 V; wire open: 12.6 V, of which it shows its 5 V.
  const sender = kinds.wires.find(({ from }) => from === 'A1.3')!.id;
  expect(asked.agrees(['scan A1.3 2.5'])).toBe(true);
  expect(asked.agrees(['scan A1.3 5.0'])).toBe(false);
  expect(asked.agrees(['scan A1.3 5.0'], asked.open(sender))).toBe(true);
  expect(asked.agrees(['scan A1.3 2.5'], asked.open(sender))).toBe(false);
  expect(asked.agrees(['scan A1.3 0.0'], asked.short(sender))).toBe(true);
});

test('when the module is dead inside then it does not answer, whatever its terminals have', () => {
  const inside = asked.open('A1:supply', Infinity);
  expect(asked.agrees(['scan A1.2 no answer'], inside)).toBe(true);
  expect(asked.agrees(['scan A1.2 released'], inside)).toBe(false);
});

test('when it does not see an input any more then it reports it as low, whatever the terminal has', () => {
  const blind = asked.open('A1:2 input', Infinity);
  expect(asked.agrees(['scan A1.2 pressed'], blind)).toBe(true);
  expect(asked.agrees(['scan A1.2 released'], blind)).toBe(false);
});

test('when a silent module is asked for several inputs then that speaks against what feeds it no more than once', async () => {
  const bench = await workbenchOf('daytime-module');
  const found = ['key on', 'dead H3 H4', 'prove scan', 'scan A1.15 no answer'];
  const fault = bench.faults.find(({ id }) => id === 'X1.6 resistance')!;
  const notesOn = (lines: readonly string[]) =>
    judge(bench, [fault], gather(bench, foldCase(bench.circuit, recordedOf(bench, lines)))).soft.length;
  expect(notesOn(found)).toBe(1);
  expect(notesOn([...found, 'scan A1.2 no answer', 'scan A1.15 no answer'])).toBe(1);
});
