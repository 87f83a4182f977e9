/** Symbols after IEC 60617 (their shapes from memory), each drawn downwards from (0, 0) to (0, HEIGHT). */
import type { Part } from '../../../circuit/circuit.js';
import type { Link } from '../../../circuit/links.js';

/** Of every symbol that stands in a line. */
export const HEIGHT = 38;
/** Widest half of one. */
export const HALF = 16;

const MID = HEIGHT / 2;
const line = (x1: number, y1: number, x2: number, y2: number): string =>
  `<path d="M${x1} ${y1}L${x2} ${y2}"/>`;
const box = (width: number, height: number): string =>
  `<rect x="${-width / 2}" y="${MID - height / 2}" width="${width}" height="${height}"/>`;
const leads = (gap: number): string => line(0, 0, 0, MID - gap) + line(0, MID + gap, 0, HEIGHT);
const letter = (text: string): string => `<text class="in" x="0" y="${MID + 4}">${text}</text>`;
const round = (text: string): string => `${leads(10)}<circle cx="0" cy="${MID}" r="10"/>${letter(text)}`;

const FUSE = box(10, 24) + line(0, 0, 0, HEIGHT);
const RESISTOR = leads(12) + box(10, 24);
const ACROSS = line(-12, MID + 10, 12, MID - 10);
const LAMP = `${leads(10)}<circle cx="0" cy="${MID}" r="10"/>${line(-7, MID - 7, 7, MID + 7)}${line(-7, MID + 7, 7, MID - 7)}`;
const COIL = leads(7) + box(26, 14);
const HEATER = `${leads(13)}${box(12, 26)}${[-6.5, 0, 6.5].map((y) => line(-6, MID + y, 6, MID + y)).join('')}`;
const HORN = `${leads(7)}${box(9, 14)}<path d="M4.5 ${MID - 5}L14 ${MID - 10}L14 ${MID + 10}L4.5 ${MID + 5}"/>`;
const BUZZER = `${leads(8)}<path d="M0 ${MID - 8}A8 8 0 0 1 0 ${MID + 8}Z"/>`;
const PLUG = `${line(0, 0, 0, MID - 8)}<path d="M-6 ${MID - 2}A6 6 0 0 1 6 ${MID - 2}"/><path class="bold" d="M0 ${MID - 3}L0 ${MID + 8}"/>${line(0, MID + 8, 0, HEIGHT)}`;
const LOAD = leads(10) + box(20, 20);

function diode(flipped: boolean): string {
  const [tip, base] = flipped ? [MID - 7, MID + 7] : [MID + 7, MID - 7];
  return `${line(0, 0, 0, HEIGHT)}<path class="full" d="M-8 ${base}L8 ${base}L0 ${tip}Z"/>${line(-8, tip, 8, tip)}`;
}

/** @param closed undefined = not known, drawn at rest position as open */
function contact(closed: boolean | undefined, extra = ''): string {
  const blade = closed === true ? line(0, MID + 8, 0, MID - 8) : line(0, MID + 8, -10, MID - 9);
  const dots = [MID - 10, MID + 10].map((y) => `<circle cx="0" cy="${y}" r="2"/>`).join('');
  return `${line(0, 0, 0, MID - 12)}${line(0, MID + 12, 0, HEIGHT)}${blade}${dots}${extra}`;
}

/**
 * The symbol of a piece in a line.
 * @param flipped its second terminal is on top
 */
export function symbolOf(
  part: Part | undefined,
  { kind }: Link,
  closed: boolean | undefined,
  flipped: boolean,
): string {
  if (kind === 'pin') return PLUG;
  if (kind === 'coil') return COIL;
  if (kind === 'contact') return contact(closed);
  switch (part?.type) {
    case 'fuse':
      return FUSE;
    case 'fusible link':
      return FUSE + line(-5, MID - 7, 5, MID - 7) + line(-5, MID + 7, 5, MID + 7);
    case 'breaker':
      return contact(true, line(-4, MID - 14, 4, MID - 6) + line(-4, MID - 6, 4, MID - 14));
    case 'lamp':
      return LAMP;
    case 'LED lamp':
      return `${diode(flipped)}${line(9, MID - 4, 15, MID - 9)}${line(9, MID + 2, 15, MID - 3)}`;
    case 'motor':
      return round('M');
    case 'alternator':
      return kind === 'source' ? round('G') : COIL;
    case 'horn':
      return HORN;
    case 'buzzer':
      return BUZZER;
    case 'heater':
      return HEATER;
    case 'solenoid':
      return COIL;
    case 'resistor':
    case 'resistor pack':
      return RESISTOR;
    case 'sender':
      return RESISTOR + ACROSS + line(12, MID - 10, 7, MID - 9);
    case 'thermistor':
      return RESISTOR + ACROSS + line(-12, MID + 10, -17, MID + 10);
    case 'diode':
      return diode(flipped);
    default:
      return LOAD;
  }
}

/** Earth, from its line at (0, 0). */
export const GROUND = `${line(0, 0, 0, 10)}${line(-11, 10, 11, 10)}${line(-7, 14, 7, 14)}${line(-3, 18, 3, 18)}`;
export const GROUND_HEIGHT = 20;

/** Battery lying on its side: minus left at (0, h), plus right at (60, h). */
export const BATTERY = `<path d="M0 34L0 12L26 12M34 12L60 12L60 34"/><path class="bold" d="M26 6L26 18"/><path d="M34 0L34 24"/><text class="in" x="46" y="8">+</text><text class="in" x="14" y="8">-</text>`;
export const BATTERY_WIDTH = 60;
export const BATTERY_HEIGHT = 34;
