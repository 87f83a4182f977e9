/** The drawing in text: everything is there once, it fits the screen, and a session shows in it. */
import { describe, expect, test } from 'vitest';
import { planOf } from '../../../src/circuit/downhill.js';
import { createWorkbench } from '../../../src/diagnosis/workbench.js';
import { drawText } from '../../../src/report/drawing/draw-text.js';
import { focusOn } from '../../../src/report/drawing/focus.js';
import { laddersOf, type Run } from '../../../src/report/drawing/ladders.js';
import type { Marks } from '../../../src/report/drawing/marks.js';
import { standingOf } from '../../../src/report/drawing/standing.js';
import { setUpFrom } from '../../../src/cli/set-up-flags.js';
import { circuitOf, SHELF } from '../../circuit/shelf.js';

const textOf = (name: string, options = {}): string[] =>
  drawText(planOf(circuitOf(name)), options).map(({ text }) => text);

describe.each(SHELF)('%s', (name) => {
  const circuit = circuitOf(name);
  const plan = planOf(circuit);

  test('when it is drawn then every part and every wire is on it by name, each wire once', () => {
    const text = textOf(name).join('\n');
    for (const { id } of circuit.wires) {
      const found = text.match(new RegExp(`(?<![\\w.])${id} (?:[A-Z]{2,6} )?[\\d.]+ mm2`, 'g')) ?? [];
      expect(found, id).toHaveLength(1);
    }
    for (const id of circuit.parts.keys()) expect(text).toMatch(new RegExp(`(?<![\\w.])${id}(?![\\w])`));
  });

  test('when it is taken apart into ladders then each link is in one of them, feed side first', () => {
    const rungs = (run: Run): Run['rungs'] => [...run.rungs, ...run.branches.flatMap(rungs)];
    // A branch with a ladder of its own belongs to the ladder it left.
    const tops = laddersOf(plan).filter(
      ({ run }) =>
        !laddersOf(plan).some(({ elsewhere }) => [...elsewhere.keys()].some((one) => same(one, run))),
    );
    const all = tops.flatMap(({ run }) => rungs(run));
    const drawn = all.map(({ link }) => link.index).sort((a, b) => a - b);
    const wanted = plan.links.filter(({ kind }) => kind !== 'bolt').map(({ index }) => index);
    expect(drawn).toEqual(wanted);
    for (const { from, to } of all) expect(plan.height(from)).toBeLessThanOrEqual(plan.height(to));
  });

  test('when it is drawn for a plain terminal then no line is wider than 80 columns and all is ASCII', () => {
    const bench = createWorkbench(circuit);
    const standing = standingOf(bench, setUpFrom(circuit), { volts: name.length % 7 === 0 });
    for (const line of textOf(name, { ascii: true, standing })) {
      expect(line.length, line).toBeLessThanOrEqual(80);
      expect(line).toMatch(/^[\x20-\x7e]*$/);
    }
    for (const line of textOf(name, { standing })) expect([...line].length, line).toBeLessThanOrEqual(80);
  });
});

function same(one: Run, other: Run): boolean {
  return one.from === other.from && one.rungs[0]?.link.index === other.rungs[0]?.link.index;
}

describe('what a mechanic asks of it', () => {
  const circuit = circuitOf('stop-tail');
  const bench = createWorkbench(circuit);

  test('when the pedal is down then the stop switch is drawn closed, else open', () => {
    const with_ = (when: string[]): string =>
      drawText(planOf(circuit), { standing: standingOf(bench, setUpFrom(circuit, when)) })
        .map(({ text }) => text)
        .find((text) => text.includes('S4.1 to S4.2'))!;
    expect(with_(['pedal down'])).toContain('CLOSED');
    expect(with_([])).toContain('OPEN');
  });

  test('when volts are asked for then they are those of the readings', () => {
    const standing = standingOf(bench, setUpFrom(circuit, ['pedal down']), { volts: true });
    const lines = drawText(planOf(circuit), { standing }).map(({ text }) => text);
    expect(lines.find((text) => text.includes('H1.54'))).toContain('H1.54 [11.97 V] to H1.31 [0.06 V]');
  });

  test('when one lamp is asked for then its way from battery + to ground is drawn, and no other load', () => {
    const plan = planOf(circuit, focusOn(circuit, new Set(['H3'])));
    const text = drawText(plan)
      .map((line) => line.text)
      .join('\n');
    for (const id of ['G1.30', 'F4.1', 'S4.1', 'X1.1h', 'X5.1h', 'H3.1', 'GP3']) expect(text).toContain(id);
    for (const id of ['B1.1', 'H4.1', 'H1.54', 'F6.1']) expect(text).not.toContain(id);
  });

  test('when a load hangs on a relay then what works the relay is drawn with it', () => {
    const starter = circuitOf('starter');
    const text = drawText(planOf(starter, focusOn(starter, new Set(['M1']))))
      .map((line) => line.text)
      .join('\n');
    for (const id of ['K2.86', 'K1.30', 'K1.86', 'S1.30', 'S2.1']) expect(text).toContain(id);
  });

  test('when a part is suspected then a sign and words say so, not the colour alone', () => {
    const marks: Marks = {
      link: ({ owner }) =>
        owner === 'W8'
          ? { status: 'suspect', sign: '?', words: 'suspect 40 %' }
          : { status: 'cleared', sign: '+', words: '' },
      point: () => undefined,
    };
    const lines = drawText(planOf(circuit), { marks });
    const line = lines.find(({ text }) => text.includes('W8 BKRD'))!;
    expect(line.text).toMatch(/^\? .*suspect 40 %$/);
    expect(line.status).toBe('suspect');
    expect(lines.filter(({ text }) => text.startsWith('+ ')).length).toBeGreaterThan(30);
    expect(lines.map(({ text }) => text).join(' ')).toContain('? suspect, + cleared');
  });
});
