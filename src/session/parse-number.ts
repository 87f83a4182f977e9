/**
 * A number with its unit, as typed: decimal point or comma, metric prefix, unit before, after or in place of the point.
 * Digits and exponent are kept apart until the end, so that "0.3" and its last-digit step are exact decimals.
 */
import type { Typed } from './events.js';

/** A value, or what is wrong with the text and how to mend it. Messages hold no position: the caller knows it. */
export type Parsed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly message: string; readonly mend: string };

export type Quantity = 'volts' | 'ohms' | 'amps';

const UNITS: readonly (readonly [RegExp, Quantity])[] = [
  [/^(v|volts?|vdc)$/i, 'volts'],
  [/^(a|amps?|amperes?|adc)$/i, 'amps'],
  [/^(ohms?|r|Ω|Ω)$/i, 'ohms'],
];
const UNIT_NAME: Record<Quantity, string> = { volts: 'volts', ohms: 'ohms', amps: 'amps' };
const EXAMPLE: Record<Quantity, string> = {
  volts: '11.4, 11,4 or 450mV',
  ohms: '0.3, 1k2 or OL',
  amps: '1.75 or 20mA',
};
/** No meter for a vehicle goes past these (volts, ohms, amperes): a typing slip, not a reading. */
const LIMIT: Record<Quantity, number> = { volts: 1000, ohms: 1e9, amps: 3000 };

/** Value and step in volts, ohms or amperes. The text's own unit, if any, must be of that quantity. */
export function parseNumber(text: string, quantity: Quantity): Parsed<Typed> {
  const clean = text
    .trim()
    .replace(/[−–]/g, '-')
    .replace(/^([-+])\s+/, '$1');
  if (clean === '') return wrong('There is no value', `Type the reading, for example ${EXAMPLE[quantity]}.`);
  // 1k2, 4R7, 2V5: the prefix or unit stands where the point would be.
  const infix = /^([-+]?\d+)([kKmMrRvV])(\d+)(.*)$/.exec(clean);
  const found = infix
    ? [clean, infix[1]! + '.' + infix[3]!, infix[2]! + infix[4]!]
    : /^([-+]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*([^\s\d.,].*)?$/.exec(clean);
  if (!found)
    return wrong(`"${text}" is not a reading`, `Type a plain number, for example ${EXAMPLE[quantity]}.`);
  const unit = readUnit((found[2] ?? '').trim(), quantity);
  if (unit === undefined)
    return wrong(
      `"${found[2]!.trim()}" is not a unit of ${UNIT_NAME[quantity]}`,
      `For example: ${EXAMPLE[quantity]}.`,
    );
  if (unit.quantity !== quantity)
    return wrong(
      `"${text}" is in ${UNIT_NAME[unit.quantity]}, but this reading is in ${UNIT_NAME[quantity]}`,
      `Type the ${UNIT_NAME[quantity]}, or start the line with ${UNIT_NAME[unit.quantity]}.`,
    );
  const digits = found[1]!.replace(',', '.');
  const decimals = digits.includes('.') ? digits.length - digits.indexOf('.') - 1 : 0;
  const whole = digits.replace('.', '').replace('+', '');
  const value = Number(`${whole}e${unit.exponent - decimals}`);
  const step = Number(`1e${unit.exponent - decimals}`);
  if (Math.abs(value) > LIMIT[quantity])
    return wrong(
      `${text} is more than any reading in ${UNIT_NAME[quantity]} can be here`,
      quantity === 'ohms'
        ? 'Type OL if the meter shows no end value.'
        : 'Check the decimal point and the unit.',
    );
  return { ok: true, value: { value: value === 0 ? 0 : value, step } };
}

/** Unit and power of ten of `mV`, `k`, `kohm`, ``; undefined when it is no unit at all. */
function readUnit(
  text: string,
  wanted: Quantity,
): { readonly quantity: Quantity; readonly exponent: number } | undefined {
  const asUnit = (word: string): Quantity | undefined =>
    word === '' ? wanted : UNITS.find(([shape]) => shape.test(word))?.[1];
  const plain = asUnit(text);
  if (plain !== undefined) return { quantity: plain, exponent: 0 };
  const prefix = text[0]!;
  const quantity = asUnit(text.slice(1).trim());
  if (quantity === undefined) return undefined;
  if (prefix === 'k' || prefix === 'K') return { quantity, exponent: 3 };
  if (prefix === 'µ' || prefix === 'μ' || prefix === 'u') return { quantity, exponent: -6 };
  if (prefix === 'm') return { quantity, exponent: -3 };
  // Capital M is mega for ohms; nobody reads megavolts, so there it is caps lock.
  if (prefix === 'M') return { quantity, exponent: quantity === 'ohms' ? 6 : -3 };
  return undefined;
}

function wrong(message: string, mend: string): Parsed<never> {
  return { ok: false, message, mend };
}
