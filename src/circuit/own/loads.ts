/** Loads as a person says them: "2 stop lamps P21W, horn 5 A, radiator fan 12 A". */
import { CATALOGUE, inCatalogue, madeFor } from '../catalogue.js';
import type { PartType } from '../circuit.js';
import { parseQuantity } from '../quantity.js';

export type LoadType = Extract<
  PartType,
  'lamp' | 'LED lamp' | 'motor' | 'horn' | 'heater' | 'buzzer' | 'solenoid' | 'load'
>;

export interface OwnLoad {
  readonly type: LoadType;
  readonly name: string;
  /** Keys of the circuit file: `watts: 21 W`, or `catalogue: P21W`. */
  readonly figure: readonly [key: string, value: string];
  readonly amps: number;
}

export type Understood<T> = { readonly value: T } | { readonly wrong: string; readonly mend: string };

/** More are not asked for one circuit: a file with more is better written by hand. */
export const MOST_LOADS = 16;

const KINDS: readonly (readonly [RegExp, LoadType, figure: string])[] = [
  [/\bleds?\b/i, 'LED lamp', '3 W'],
  [/lamps?\b|lights?\b|bulbs?\b|beam|beacon|blinker|indicator/i, 'lamp', '21 W'],
  [/horn/i, 'horn', '5 A'],
  [/heat|defrost|demist/i, 'heater', '10 A'],
  [/buzzer|beeper/i, 'buzzer', '0.1 A'],
  [/valve|solenoid|lock/i, 'solenoid', '1 A'],
  [/fan|pump|motor|wiper|blower|window|winch/i, 'motor', '6 A'],
];

const EXAMPLE = 'write them like: 2 stop lamps P21W, horn 5 A';

/** @param volts of the system, which amperes are worked out by */
export function parseLoads(text: string, volts: number): Understood<readonly OwnLoad[]> {
  const pieces = text
    .split(/,(?!\d)|;|\band\b|\+/i)
    .flatMap((piece) => (piece.trim() === '' ? [] : [piece.trim()]));
  const loads: OwnLoad[] = [];
  for (const piece of pieces) {
    const read = parseOne(piece, volts);
    if ('wrong' in read) return read;
    loads.push(...read.value);
  }
  if (loads.length === 0) return { wrong: 'there is no load in this', mend: EXAMPLE };
  if (loads.length > MOST_LOADS)
    return {
      wrong: `${loads.length} loads are too many for one circuit`,
      mend: `at most ${MOST_LOADS}; make another file for the rest`,
    };
  return { value: apart(loads) };
}

function parseOne(piece: string, volts: number): Understood<OwnLoad[]> {
  const [, counted, rest] = /^(\d{1,3}(?=\s|x\s|×)(?:\s*[x×])?\s+)?(.*)$/u.exec(piece)!;
  const count = counted === undefined ? 1 : Number.parseInt(counted, 10);
  const { words, figure } = splitFigure(rest!);
  if (!/\p{L}{2}/u.test(words))
    return { wrong: `"${piece}" does not say what kind of load it is`, mend: EXAMPLE };
  if (words.length > 60 || /[\p{Cc}\p{Cf}]/u.test(words))
    return {
      wrong: 'the name of a load is too long or has invisible signs',
      mend: 'give it a short plain name',
    };
  if (count < 1 || count > MOST_LOADS)
    return { wrong: `${count} of "${words}" cannot be drawn in one circuit`, mend: `say 1 to ${MOST_LOADS}` };
  const [, type, usual] = KINDS.find(([sign]) => sign.test(words)) ?? [/./, 'load' as const, ''];
  const known = catalogued(words, type, volts);
  if (known === undefined && figure === undefined && usual === '')
    return {
      wrong: `it is not known how much "${words}" draws`,
      mend: `add its watts or amperes: ${words} 20 W`,
    };
  const drawn = known ?? figureOf(figure ?? usual, type, volts);
  if ('wrong' in drawn) return drawn;
  const name = count > 1 ? singular(drawn.name ?? words) : (drawn.name ?? words);
  return {
    value: Array.from({ length: count }, (_, i) => ({
      type,
      name:
        count === 1
          ? name
          : count === 2 && isLamp(type)
            ? `${i === 0 ? 'left' : 'right'} ${name}`
            : `${name} ${i + 1}`,
      figure: drawn.figure,
      amps: drawn.amps,
    })),
  };
}

interface Drawn {
  readonly figure: readonly [string, string];
  readonly amps: number;
  /** The words without what was the figure. */
  readonly name?: string;
}

/** A name printed on the part as the last word or two: `P21W`, `H7`. */
function catalogued(words: string, type: LoadType, volts: number): Drawn | undefined {
  const list = words.split(/\s+/);
  for (const length of [1, 2]) {
    const name = list.slice(0, -length).join(' ');
    const entry = name === '' ? undefined : inCatalogue(type, list.slice(-length).join(' '));
    const keys = entry === undefined ? undefined : madeFor(entry, volts);
    // A lamp of two filaments is two loads of the circuit.
    if (entry === undefined || keys === undefined || keys.filaments !== undefined) continue;
    const watts = amount(keys.watts, 'watts');
    const amps = amount(keys.amps, 'amps');
    return { figure: ['catalogue', entry.id], amps: amps > 0 ? amps : watts / volts, name };
  }
  return undefined;
}

function figureOf(figure: string, type: LoadType, volts: number): Drawn | { wrong: string; mend: string } {
  const inWatts = /w$/i.test(figure.trim());
  const read = parseQuantity(figure, inWatts ? 'watts' : 'amps');
  if (!('value' in read)) return { wrong: read.wrong, mend: `${read.mend}, or in watts like 21 W` };
  const amps = inWatts ? read.value / volts : read.value;
  if (amps > 100)
    return {
      wrong: `${figure} is ${amps.toFixed(0)} A, too much for a fused circuit`,
      mend: 'check the number and its unit',
    };
  const watts = inWatts ? read.value : read.value * volts;
  return isLamp(type)
    ? { figure: ['watts', `${plain(watts)} W`], amps }
    : { figure: inWatts ? ['watts', `${plain(watts)} W`] : ['amps', `${plain(amps)} A`], amps };
}

/** "radiator fan 12 A" → the words and the figure. */
function splitFigure(text: string): { words: string; figure?: string } {
  const match = /^(.*?)[\s:]+(\d+(?:[.,]\d+)?\s*[a-zΩ]{0,5})$/iu.exec(text);
  if (match === null) return { words: text.trim() };
  // Without a unit it may be a name: "lamp 2".
  return /[a-zΩ]$/iu.test(match[2]!)
    ? { words: match[1]!.trim(), figure: match[2]! }
    : { words: text.trim() };
}

/** Two loads of one name are told apart by a number. */
function apart(loads: readonly OwnLoad[]): OwnLoad[] {
  return loads.map((load, i) => {
    const same = loads.filter(({ name }) => name.toLowerCase() === load.name.toLowerCase());
    if (same.length === 1) return load;
    const number =
      loads.slice(0, i).filter(({ name }) => name.toLowerCase() === load.name.toLowerCase()).length + 1;
    return { ...load, name: `${load.name} ${number}` };
  });
}

function isLamp(type: LoadType): boolean {
  return type === 'lamp' || type === 'LED lamp';
}

function singular(words: string): string {
  return words.replace(/([^s])s$/i, '$1');
}

function amount(text: string | undefined, quantity: 'watts' | 'amps'): number {
  const read = text === undefined ? undefined : parseQuantity(text, quantity);
  return read !== undefined && 'value' in read ? read.value : 0;
}

function plain(value: number): string {
  return String(Number(value.toPrecision(3)));
}

/** Names that a lamp may be given by, for a question. */
export function lampNames(): string {
  return CATALOGUE.filter(
    ({ type, made }) =>
      type === 'lamp' && [...made.values()].every(({ filaments }) => filaments === undefined),
  )
    .slice(0, 6)
    .map(({ id }) => id)
    .join(', ');
}
