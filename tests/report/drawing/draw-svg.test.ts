/** The drawing for print: well-formed, everything named, nothing on top of anything else. */
import { describe, expect, test } from 'vitest';
import { planOf } from '../../../src/circuit/downhill.js';
import type { Circuit } from '../../../src/circuit/circuit.js';
import { drawSvg, escapeXml } from '../../../src/report/drawing/draw-svg.js';
import { NO_MARKS, type Marks } from '../../../src/report/drawing/marks.js';
import { NO_STANDING } from '../../../src/report/drawing/standing.js';
import { boxOf } from '../../../src/report/drawing/svg/boxes.js';
import { layOut, type Label, type Place } from '../../../src/report/drawing/svg/layout.js';
import { piecesOf } from '../../../src/report/drawing/svg/pieces.js';
import { circuitOf } from '../../circuit/shelf.js';

/** One of each kind of structure; the whole shelf takes longer than it tells. */
const SOME = ['stop-tail', 'starter', 'power-window', 'daytime-module'];

/** Every tag closed in turn, every `&` an entity, no bare `<`. Throws otherwise. */
function wellFormed(xml: string): void {
  const open: string[] = [];
  const rest = xml
    .replace(/^<\?xml[^?]*\?>/, '')
    .replace(/<(\/?)([a-z]+)((?:\s[\w-]+="[^"<]*")*)(\/?)>/gi, (_, end, name, _more, alone) => {
      if (end === '/') {
        if (open.pop() !== name) throw new Error(`</${name}> closes something else`);
      } else if (alone !== '/') open.push(name);
      return '';
    });
  if (open.length > 0) throw new Error(`not closed: ${open.join(', ')}`);
  const bad = /[<>]|&(?!(?:amp|lt|gt|quot|apos);)/.exec(rest.replace(/\s+/g, ' '));
  if (bad !== null) throw new Error(`bare sign: ${rest.slice(bad.index, bad.index + 40)}`);
}

test.each([...SOME, 'charging', 'can-pair'])(
  'when %s is drawn then it is well-formed, on A4, and every part is named',
  async (name) => {
    const circuit = circuitOf(name);
    const { svg, letters } = await drawSvg(planOf(circuit));
    wellFormed(svg);
    const [, width, height] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(svg)!.map(Number);
    expect(Math.max(width!, height!)).toBeLessThanOrEqual(277);
    expect(Math.min(width!, height!)).toBeLessThanOrEqual(190);
    expect(letters).toBeGreaterThan(1);
    for (const id of circuit.parts.keys()) expect(svg).toMatch(new RegExp(`>${id}(?:\\.[\\w+]+)?<`));
    for (const { id } of circuit.wires) expect(svg).toMatch(new RegExp(`>${id} `));
  },
);

describe.each(SOME)('%s on paper', async (name) => {
  const plan = planOf(circuitOf(name));
  const { pieces, lines } = piecesOf(plan);
  const boxes = pieces.map((piece) => boxOf(piece, plan, NO_MARKS, NO_STANDING));
  const labels = new Map<string, Label>(
    lines.flatMap(({ id, link }) => (link ? [[id, { text: link.owner, width: 60, height: 10 }]] : [])),
  );
  const sheet = await layOut(boxes, lines, labels, 1.46);
  const placed = boxes.map((box) => ({ ...box, ...sheet.boxes.get(box.piece.id)! }));

  test('when it is laid out then no two symbols with their words overlap', () => {
    placed.forEach((one, i) => {
      for (const other of placed.slice(i + 1)) {
        const apart =
          one.x + one.width <= other.x ||
          other.x + other.width <= one.x ||
          one.y + one.height <= other.y ||
          other.y + other.height <= one.y;
        expect(apart, `${one.piece.id} and ${other.piece.id}`).toBe(true);
      }
    });
  });

  test('when it is laid out then no line goes through a symbol or its words, and every line is at right angles', () => {
    for (const { id } of lines) {
      const { corners } = sheet.lines.get(id)!;
      expect(corners.length).toBeGreaterThanOrEqual(2);
      for (let i = 1; i < corners.length; i++) {
        const [a, b] = [corners[i - 1]!, corners[i]!];
        expect(Math.abs(a.x - b.x) < 0.6 || Math.abs(a.y - b.y) < 0.6, id).toBe(true);
        for (const box of placed) expect(through(a, b, box), `${id} through ${box.piece.id}`).toBe(false);
      }
    }
  });

  test('when it is laid out then every label is clear of every symbol', () => {
    for (const [id, { label }] of sheet.lines) {
      if (label === undefined) continue;
      const { width, height } = labels.get(id)!;
      for (const box of placed) {
        const apart =
          label.x + width <= box.x ||
          box.x + box.width <= label.x ||
          label.y + height <= box.y ||
          box.y + box.height <= label.y;
        expect(apart, `${id} over ${box.piece.id}`).toBe(true);
      }
    }
  });
});

/** Does a straight line run inside a box, not only along or up to its edge? */
function through(a: Place, b: Place, box: { x: number; y: number; width: number; height: number }): boolean {
  const within = (low: number, high: number, from: number, to: number): boolean =>
    Math.min(from, to) < high - 1 && Math.max(from, to) > low + 1;
  return within(box.x, box.x + box.width, a.x, b.x) && within(box.y, box.y + box.height, a.y, b.y);
}

test('when a name would be markup then it is text', async () => {
  const circuit = circuitOf('reversing-lamps');
  const parts = new Map(circuit.parts);
  parts.set('H1', { ...parts.get('H1')!, label: '<b>&"x\u001b[31m' } as never);
  const evil: Circuit = { ...circuit, title: '</title><script>alert(1)</script>', parts };
  const { svg } = await drawSvg(planOf(evil));
  wellFormed(svg);
  expect(svg).not.toContain('<script');
  expect(svg).toContain('&lt;b&gt;&amp;&quot;x');
  expect(escapeXml(`a'b\u0007`)).toBe('a&apos;b&lt;U+0007&gt;');
});

test('when a session suspects something then pattern, sign and words show it', async () => {
  const marks: Marks = {
    link: ({ owner }) =>
      owner === 'F4' ? { status: 'suspect', sign: '?', words: 'suspect 40 %' } : undefined,
    point: (point) => (point === 'GP3' ? { status: 'cleared', sign: '+', words: '' } : undefined),
  };
  const { svg } = await drawSvg(planOf(circuitOf('stop-tail')), { marks });
  expect(svg).toMatch(/<rect class="back suspect"/);
  expect(svg).toMatch(/<text class="sign suspect"[^>]*>\?</);
  expect(svg).toContain('suspect 40 %');
  expect(svg).toMatch(/<text class="sign cleared"[^>]*>\+</);
  expect(svg).toContain('>cleared<');
});

test('when a circuit is too wide for A4 then it is cut at a splice, and every wire is still there once', async () => {
  const circuit = circuitOf('whole-car-draw');
  const { svg, letters } = await drawSvg(planOf(circuit));
  expect(letters).toBeGreaterThan(1.4);
  expect(svg.match(/>SP1</g)!.length).toBeGreaterThan(5);
  expect(svg).toContain('goes on elsewhere');
  for (const { id } of circuit.wires) expect(svg.match(new RegExp(`>${id} `, 'g')), id).toHaveLength(1);
});

test('when it is drawn twice then the bytes are the same', async () => {
  const plan = planOf(circuitOf('horn'));
  expect((await drawSvg(plan)).svg).toBe((await drawSvg(plan)).svg);
});
