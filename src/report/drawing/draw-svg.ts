/** A circuit as SVG on A4, feed at the top and ground at the bottom, with what a session suspects by sign, pattern and colour. */
import type { PointId } from '../../circuit/circuit.js';
import type { Plan } from '../../circuit/downhill.js';
import { visible } from '../../circuit/visible.js';
import type { Status } from '../../diagnosis/diagnosis-types.js';
import { wrap } from '../layout.js';
import { NO_MARKS, SIGNS, type Mark, type Marks } from './marks.js';
import { NO_STANDING, type Standing } from './standing.js';
import { boxOf, LINE, MARGIN, type Box } from './svg/boxes.js';
import { layOut, type Label, type Sheet } from './svg/layout.js';
import { legendOf } from './svg/legend.js';
import { cutsFor, piecesOf, sharedGrounds, type Line } from './svg/pieces.js';
import { STYLE } from './svg/style.js';
import { BATTERY, GROUND, GROUND_HEIGHT, HEIGHT, symbolOf } from './svg/symbols.js';

/** A4 with a margin, mm, and the room around the drawing, in its own units. */
const A4 = { short: 190, long: 277 };
const EDGE = 14;
/** Letters of this height can be read on paper without effort, mm. */
const READABLE = 1.5;
const MOST_CUTS = 3;
/** No sheet is narrower, so that its heading fits. */
const NARROWEST = 420;
/** Of the words at a wire. */
const LABEL = { height: 10, letter: 4.8, bold: 5.4 };

export interface SvgOptions {
  readonly marks?: Marks;
  readonly standing?: Standing;
}

export interface Drawn {
  readonly svg: string;
  /** Height of the plain letters on A4, mm. */
  readonly letters: number;
}

/** Whole where that can be read on A4; else cut at its widest splices, and at shared grounds, until it can. */
export async function drawSvg(plan: Plan, options: SvgOptions = {}): Promise<Drawn> {
  let best = await drawCut(plan, options, []);
  const grounds = sharedGrounds(plan);
  const splices = cutsFor(plan);
  for (let count = 1; best.letters < READABLE && count <= Math.min(splices.length, MOST_CUTS); count++) {
    const drawn = await drawCut(plan, options, [...grounds, ...splices.slice(0, count)]);
    if (drawn.letters > best.letters) best = drawn;
  }
  return best;
}

async function drawCut(
  plan: Plan,
  { marks = NO_MARKS, standing = NO_STANDING }: SvgOptions,
  cut: readonly PointId[],
): Promise<Drawn> {
  const { pieces, lines } = piecesOf(plan, new Set(cut));
  const boxes = pieces.map((piece) => boxOf(piece, plan, marks, standing));
  const labels = new Map(lines.flatMap((line) => labelOf(plan, marks, line)));
  const sheet = await layOut(boxes, lines, labels, A4.long / A4.short);
  const used = new Set<Status>();
  const note = (mark: Mark | undefined): Mark | undefined => {
    if (mark !== undefined) used.add(mark.status);
    return mark;
  };
  const drawn = [
    ...lines.map((line) => lineSvg(line, sheet, labels, note(line.link && marks.link(line.link)))),
    ...boxes.map((box) => boxSvg(box, plan, sheet, standing, note(box.mark))),
  ];
  const legend = legendOf(
    [...used].map((status) => SIGNS[status]),
    Math.max(sheet.width, NARROWEST),
  );
  const width = Math.max(sheet.width, legend.width, NARROWEST) + 2 * EDGE;
  const head = heading(plan, standing, width - 2 * EDGE);
  const top = EDGE + head.length * 14 + 6;
  const height = top + sheet.height + legend.height + 2 * EDGE;
  const [w, h] = width > height ? [A4.long, A4.short] : [A4.short, A4.long];
  const scale = Math.min(w / width, h / height);
  const svg = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${mm(width * scale)}" height="${mm(height * scale)}" viewBox="0 0 ${at(width)} ${at(height)}">`,
    `<title>${escapeXml(plan.circuit.title)}</title>`,
    STYLE,
    `<rect class="paper" x="0" y="0" width="${at(width)}" height="${at(height)}"/>`,
    ...head.map(
      ({ text, style }, i) =>
        `<text class="${style}" x="${EDGE}" y="${EDGE + 10 + i * 14}">${escapeXml(text)}</text>`,
    ),
    `<g transform="translate(${EDGE} ${top})">`,
    ...drawn,
    '</g>',
    `<g transform="translate(${EDGE} ${at(top + sheet.height + EDGE)})">${legend.svg}</g>`,
    '</svg>',
  ].join('\n');
  return { svg: `${svg}\n`, letters: 9 * scale };
}

/** Text as XML character data or in an attribute. */
export function escapeXml(text: string): string {
  const names: Readonly<Record<string, string>> = {
    '&': 'amp',
    '<': 'lt',
    '>': 'gt',
    '"': 'quot',
    "'": 'apos',
  };
  return visible(text).replace(/[&<>"']/g, (sign) => `&${names[sign]};`);
}

/** @param width of the sheet, which long titles are folded to */
function heading(
  { circuit }: Plan,
  { when, closed, volts, read }: Standing,
  width: number,
): readonly { readonly text: string; readonly style: 'title' | 'plain' }[] {
  const controls = when.length === 0 ? 'all controls at rest' : `${when.join(', ')}; the others at rest`;
  const figures = [
    ...(volts.size > 0 ? [' Volts against battery -, calculated for a healthy circuit.'] : []),
    ...(read.size > 0 ? [' Read: last measured against battery -, with its number in the record.'] : []),
  ].join('');
  const fold = (text: string, letter: number): readonly string[] =>
    wrap(visible(text), Math.floor(width / letter), '');
  return [
    ...fold(`${circuit.title} (${circuit.id}), ${circuit.nominalVolts} V`, 8.6).map((text) => ({
      text,
      style: 'title' as const,
    })),
    ...(closed.size === 0 && figures === '' ? [] : fold(`Drawn with ${controls}.${figures}`, 5.6)).map(
      (text) => ({ text, style: 'plain' as const }),
    ),
  ];
}

function labelOf({ circuit }: Plan, marks: Marks, { id, link }: Line): readonly (readonly [string, Label])[] {
  if (link === undefined) return [];
  const { colour, mm2 } = circuit.wires.find((wire) => wire.id === link.owner)!;
  const mark = marks.link(link);
  const words = [
    mark?.sign ?? '',
    link.owner,
    colour,
    Number(mm2.toPrecision(3)),
    mark?.words.replace('suspect ', '') ?? '',
  ];
  const text = words.filter((word) => word !== '').join(' ');
  return [
    [
      id,
      {
        text,
        width: text.length * (mark?.status === 'suspect' ? LABEL.bold : LABEL.letter) + 3,
        height: LABEL.height,
      },
    ],
  ];
}

function lineSvg(
  { id }: Line,
  { lines }: Sheet,
  labels: ReadonlyMap<string, Label>,
  mark: Mark | undefined,
): string {
  const { corners, joints, label } = lines.get(id)!;
  const dots = joints.map(({ x, y }) => `<circle class="dot" cx="${at(x)}" cy="${at(y)}" r="2"/>`).join('');
  const path = corners.map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${at(x)} ${at(y)}`).join('');
  const words = labels.get(id);
  const text =
    label === undefined || words === undefined
      ? ''
      : `<text class="wire ${classOf(mark)}" x="${at(label.x + 1)}" y="${at(label.y + LABEL.height - 2)}">${escapeXml(words.text)}</text>`;
  return `<path class="wire ${classOf(mark)}" d="${path}"/>${dots}${text}`;
}

function boxSvg(
  box: Box,
  { circuit }: Plan,
  { boxes }: Sheet,
  standing: Standing,
  mark: Mark | undefined,
): string {
  const { piece, axis, width, height, words } = box;
  const { x, y } = boxes.get(piece.id)!;
  const text = words.map(
    (one) =>
      `<text class="${one.style}${one.style === 'mark' ? ` ${classOf(mark)}` : ''}" x="${at(one.x)}" y="${at(one.y)}">${escapeXml(one.text)}</text>`,
  );
  return `<g transform="translate(${at(x)} ${at(y)})">${backing(box, mark)}${symbol()}${text.join('')}</g>`;

  function symbol(): string {
    if (piece.kind === 'module')
      return `<rect class="part" x="0" y="0" width="${at(width)}" height="${at(height)}"/>`;
    if (piece.kind === 'battery') return `<g class="part" transform="translate(${axis} 0)">${BATTERY}</g>`;
    if (piece.kind === 'ground') return `<g class="part" transform="translate(${axis} 0)">${GROUND}</g>`;
    if (piece.kind === 'dot')
      return `<path class="part" d="M${axis} 0L${axis} ${at(height)}"/><circle class="dot" cx="${axis}" cy="${at(height / 2)}" r="3"/>`;
    if (piece.kind !== 'link') return '';
    const { link, ports } = piece;
    const flipped = ports[0]!.point !== link.ends[0];
    const up = (height - HEIGHT) / 2;
    const leads = `<path d="M0 ${at(-up)}L0 0M0 ${HEIGHT}L0 ${at(HEIGHT + up)}"/>`;
    const own = symbolOf(circuit.parts.get(link.owner), link, standing.closed.get(link.index), flipped);
    return `<g class="part" transform="translate(${axis} ${at(up)})">${leads}${own}</g>`;
  }
}

/** Pattern behind a symbol, and its sign. */
function backing({ piece, axis, width, height }: Box, mark: Mark | undefined): string {
  if (mark === undefined) return '';
  const half = { module: width / 2, link: 15, battery: 0, ground: 12, dot: 7 }[piece.kind];
  const tall = {
    module: height,
    link: height - 2 * (MARGIN + 2),
    battery: 0,
    ground: GROUND_HEIGHT + 2,
    dot: 14,
  }[piece.kind];
  const from = piece.kind === 'ground' ? 0 : (height - tall) / 2;
  const [sx, sy] = piece.kind === 'module' ? [width - 8, LINE] : [axis - half - 6, from + tall / 2 + 4];
  return [
    `<rect class="back ${classOf(mark)}" x="${at(axis - half)}" y="${at(from)}" width="${at(2 * half)}" height="${at(tall)}"/>`,
    `<text class="sign ${classOf(mark)}" x="${at(sx)}" y="${at(sy)}">${escapeXml(mark.sign)}</text>`,
  ].join('');
}

function classOf(mark: Mark | undefined): string {
  return mark === undefined ? '' : mark.status.replaceAll(' ', '-');
}

function at(value: number): string {
  return String(Math.round(value * 10) / 10);
}

function mm(value: number): string {
  return `${value.toFixed(1)}mm`;
}
