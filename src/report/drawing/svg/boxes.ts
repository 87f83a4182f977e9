/** How much room each piece takes with its words, and where its ports are; the layout only moves these boxes. */
import type { Link } from '../../../circuit/links.js';
import type { Plan } from '../../../circuit/downhill.js';
import { visible } from '../../../circuit/visible.js';
import { wrap } from '../../layout.js';
import type { Mark, Marks } from '../marks.js';
import { figuresAt, type Standing } from '../standing.js';
import { contactWords, partWords, pointWords, round } from '../words.js';
import type { Piece, Port } from './pieces.js';
import { BATTERY_HEIGHT, BATTERY_WIDTH, GROUND_HEIGHT, HALF, HEIGHT } from './symbols.js';

/** Letters a line of words may have beside a symbol, and how high and wide they come out. */
const LETTERS = 19;
export const LINE = 11;
const WIDE = 5.6;
const GAP = 6;
/** A name at an end that is longer runs into the words beside the symbol. */
const LONG_END = 3;

export interface Words {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly style: 'name' | 'plain' | 'small' | 'mark';
}

export interface Box {
  readonly piece: Piece;
  readonly width: number;
  readonly height: number;
  /** Where the symbol's line is, from the left. */
  readonly axis: number;
  readonly ports: readonly (Port & { readonly x: number; readonly y: number })[];
  readonly words: readonly Words[];
  readonly mark: Mark | undefined;
}

export function boxOf(piece: Piece, plan: Plan, marks: Marks, standing: Standing): Box {
  switch (piece.kind) {
    case 'link':
      return linkBox(piece, plan, marks, standing);
    case 'module':
      return moduleBox(piece, marks);
    case 'battery':
      return batteryBox(piece, plan, marks);
    default:
      return pointBox(piece, plan, marks, standing);
  }
}

function linkBox(piece: Extract<Piece, { kind: 'link' }>, plan: Plan, marks: Marks, standing: Standing): Box {
  const { link, ports } = piece;
  const { circuit } = plan;
  const part = circuit.parts.get(link.owner);
  const mark = marks.link(link);
  const state = link.kind === 'contact' ? contactWords(link, standing) : '';
  const pin = link.kind === 'pin' ? `.${link.ends[0].slice(link.owner.length + 1, -1)}` : '';
  const body = [
    ...fold(part === undefined ? '' : partWords(circuit, link)).map((text) => ({
      text,
      style: 'plain' as const,
    })),
    ...fold(state).map((text) => ({ text, style: 'small' as const })),
    ...(mark === undefined || mark.words === '' ? [] : [{ text: mark.words, style: 'mark' as const }]),
  ];
  const lines = [{ text: `${link.owner}${pin}`, style: 'name' as const }, ...body];
  const axis = HALF + 10;
  const x = axis + HALF + GAP;
  const measured = ports.some(
    ({ point }) => figuresAt(standing, point) !== '' || endName(link, point).length > LONG_END,
  );
  // Figures at both ends are longer than a terminal's number: they get lines of their own.
  const height = Math.max(HEIGHT, lines.length * LINE + 4) + (measured ? 2 * LINE : 0);
  const ends = ports.map(({ point, side }): Words => {
    const text = `${endName(link, point)} ${figuresAt(standing, point)}`.trim();
    return { text, x: axis + 4, y: side === 'top' ? 5 : height, style: 'small' };
  });
  const first = height / 2 - ((lines.length - 1) * LINE) / 2 + 3;
  const words = lines.map(({ text, style }, i): Words => ({ text, style, x, y: first + i * LINE }));
  const width = x + Math.max(...lines.map(({ text }) => text.length), 0) * WIDE + GAP;
  return {
    piece,
    width: Math.max(width, axis + 8 + Math.max(...ends.map(({ text }) => text.length)) * 4.6),
    height: height + 2 * MARGIN,
    axis,
    ports: ports.map((port) => ({ ...port, x: axis, y: port.side === 'top' ? 0 : height + 2 * MARGIN })),
    words: [...words, ...ends].map((one) => ({ ...one, y: one.y + MARGIN })),
    mark,
  };
}

/** Above and below a symbol, for the names of its ends. */
export const MARGIN = 5;

/** A terminal without its part, a pin's side, or metal by name. */
function endName({ kind, owner }: Link, point: string): string {
  if (kind === 'pin') return point.slice(-1);
  return point.startsWith(`${owner}.`) ? point.slice(owner.length + 1) : point;
}

function moduleBox(piece: Extract<Piece, { kind: 'module' }>, marks: Marks): Box {
  const { part, ports } = piece;
  const step = 34;
  const count = (side: Port['side']): number => ports.filter((port) => port.side === side).length;
  const lines = [part.id, ...fold(part.label, 30)];
  const width = Math.max(
    count('top') * step,
    count('bottom') * step,
    120,
    ...lines.map(({ length }) => length * WIDE + 2 * GAP),
  );
  const height = 40 + lines.length * LINE;
  const seen = { top: 0, bottom: 0 };
  const placed = ports.map((port) => {
    const x = step / 2 + step * seen[port.side]++;
    return { ...port, x, y: port.side === 'top' ? 0 : height };
  });
  return {
    piece,
    width,
    height,
    axis: width / 2,
    ports: placed,
    mark: marks.point(part.id),
    words: [
      ...lines.map((text, i): Words => ({
        text,
        x: GAP,
        y: 26 + i * LINE,
        style: i === 0 ? 'name' : 'plain',
      })),
      ...placed.map(({ point, side, x }): Words => ({
        text: point.slice(part.id.length + 1),
        x: x + 3,
        y: side === 'top' ? 10 : height - 4,
        style: 'small',
      })),
    ],
  };
}

function batteryBox(piece: Piece, plan: Plan, marks: Marks): Box {
  const part = plan.circuit.parts.get(plan.plus.split('.')[0]!)!;
  const mark = marks.point(plan.plus);
  const volts = part.type === 'battery' ? `${round(part.volts)} V` : '';
  const text = `${part.label}, ${volts}`;
  return {
    piece,
    width: BATTERY_WIDTH + 2 * GAP + Math.max(text.length, 10) * WIDE,
    height: BATTERY_HEIGHT,
    axis: GAP,
    ports: piece.ports.map((port, i) => ({ ...port, x: GAP + i * BATTERY_WIDTH, y: BATTERY_HEIGHT })),
    mark,
    words: [
      { text: part.id, x: BATTERY_WIDTH + 2 * GAP, y: 10, style: 'name' },
      { text, x: BATTERY_WIDTH + 2 * GAP, y: 10 + LINE, style: 'plain' },
      ...(mark === undefined || mark.words === ''
        ? []
        : [{ text: mark.words, x: BATTERY_WIDTH + 2 * GAP, y: 10 + 2 * LINE, style: 'mark' } as const]),
    ],
  };
}

function pointBox(
  piece: Extract<Piece, { kind: 'dot' | 'ground' }>,
  plan: Plan,
  marks: Marks,
  standing: Standing,
): Box {
  const { point, kind } = piece;
  const { circuit } = plan;
  const mark = marks.point(point);
  const part = circuit.parts.get(point);
  const figures = figuresAt(standing, point);
  const label = part === undefined ? (point.includes('.') ? '' : pointWords(circuit, point)) : part.label;
  const lines = [
    { text: part === undefined && label !== '' ? '' : point, style: 'name' as const },
    ...fold(
      piece.shown === 'again' || (part !== undefined && label.split(' ').includes(point)) ? '' : label,
      17,
    ).map((text) => ({
      text,
      style: 'plain' as const,
    })),
    ...(piece.shown === 'first' ? [{ text: 'goes on elsewhere', style: 'small' as const }] : []),
    ...(figures === '' ? [] : [{ text: figures, style: 'small' as const }]),
    ...(mark === undefined || mark.words === '' ? [] : [{ text: mark.words, style: 'mark' as const }]),
  ].filter(({ text }) => text !== '');
  const axis = 18;
  const x = axis + (kind === 'ground' ? 14 : 8);
  const height = Math.max(kind === 'ground' ? GROUND_HEIGHT + 4 : 12, lines.length * LINE + 4);
  return {
    piece,
    axis,
    width: x + Math.max(...lines.map(({ text }) => text.length), 0) * WIDE + GAP,
    height,
    mark,
    ports: piece.ports.map((port) => ({ ...port, x: axis, y: port.side === 'top' ? 0 : height })),
    words: lines.map(({ text, style }, i) => ({ text, style, x, y: 9 + i * LINE })),
  };
}

/** A figure stays on one line with its unit. */
function fold(text: string, most = LETTERS): readonly string[] {
  if (text === '') return [];
  const tied = visible(text).replace(/(\d) (?=(?:[AWV]|ohm)(?:$|[\s,)]))/g, `$1${TIE}`);
  return wrap(tied, most, '').map((line) => line.replaceAll(TIE, ' '));
}

/** A sign that no text from a file can have (see visible). */
const TIE = '\u0000';
