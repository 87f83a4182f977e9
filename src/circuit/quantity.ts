/**
 * Numbers with units as a person writes them: `10 A`, `0,75 mm2`, `AWG 16`, `2k2` is not one of them (that is a reading).
 * The unit is never optional: a bare number is how a 10 A fuse becomes a 10 V one.
 */

export type Quantity =
  | 'volts'
  | 'amps'
  | 'draw'
  | 'watts'
  | 'ohms'
  | 'size'
  | 'length'
  | 'time'
  | 'percent'
  | 'share'
  | 'times'
  | 'money';

interface Kind {
  /** What a person calls it, and how it is written. */
  readonly words: string;
  readonly example: string;
  /** Unit as typed, lower case and without spaces → its worth in the unit of the result. */
  readonly units: ReadonlyMap<string, number>;
  /** Smallest and largest believable value, in the unit of the result. */
  readonly least: number;
  readonly most: number;
}

const kind = (
  words: string,
  example: string,
  units: Readonly<Record<string, number>>,
  least: number,
  most: number,
): Kind => ({ words, example, units: new Map(Object.entries(units)), least, most });

// 60 V: the upper limit of the low-voltage class A of ISO 6469-3; above it this program is the wrong tool.
const KINDS: Readonly<Record<Quantity, Kind>> = {
  volts: kind('a voltage', '12 V', { v: 1, volt: 1, volts: 1, mv: 1e-3 }, 0.05, 60),
  amps: kind('a current', '10 A', { a: 1, amp: 1, amps: 1, ampere: 1, amperes: 1, ma: 1e-3 }, 0.001, 2000),
  /** Small currents of electronics: 0.2 mA is one there, and a slip elsewhere. */
  draw: kind('a current', '2 mA', { a: 1, amp: 1, amps: 1, ampere: 1, amperes: 1, ma: 1e-3 }, 1e-5, 100),
  watts: kind('a power', '21 W', { w: 1, watt: 1, watts: 1, mw: 1e-3, kw: 1e3 }, 0.01, 20000),
  ohms: kind(
    'a resistance',
    '85 ohm',
    // Ω is U+2126 in some fonts' keyboards, Greek omega lower-cases to ω.
    {
      ohm: 1,
      ohms: 1,
      ω: 1,
      kohm: 1e3,
      kohms: 1e3,
      kω: 1e3,
      mohm: 1e-3,
      milliohm: 1e-3,
      milliohms: 1e-3,
    },
    1e-4,
    1e7,
  ),
  size: kind('a wire size', '1.5 mm2', { mm2: 1, 'mm²': 1, 'mm^2': 1, sqmm: 1 }, 0.03, 300),
  length: kind(
    'a length',
    '2 m',
    { m: 1, metre: 1, metres: 1, meter: 1, meters: 1, cm: 1e-2, mm: 1e-3, ft: 0.3048 },
    0.001,
    200,
  ),
  time: kind(
    'a time',
    '8 min',
    { min: 1, mins: 1, minute: 1, minutes: 1, h: 60, hour: 60, hours: 60, s: 1 / 60 },
    0,
    2880,
  ),
  percent: kind('a percentage', '5 %', { '%': 1, percent: 1 }, 0, 50),
  share: kind('a percentage', '60 %', { '%': 1, percent: 1 }, 1, 100),
  times: kind('a number of times', '3', { '': 1, x: 1, times: 1 }, 0.1, 20),
  money: kind('a price', '12.50', { '': 1 }, 0, 1e6),
};

export type Parsed =
  | { readonly value: number }
  | { readonly wrong: string; readonly mend: string; readonly code: 'bad-quantity' | 'out-of-range' };

const NUMBER_UNIT = /^(\d{1,9}(?:[.,]\d{1,9})?)\s*(\D{0,12}|mm2|mm\^2)$/u;

/** Reads an amount. The result is in volts, amperes, watts, ohms, mm², metres, minutes, percent or the user's money. */
export function parseQuantity(text: string, quantity: Quantity): Parsed {
  const wanted = KINDS[quantity];
  const example = `write it like ${wanted.example}`;
  const bad = (wrong: string, mend = example): Parsed => ({ wrong, mend, code: 'bad-quantity' });
  const trimmed = text.trim();
  if (quantity === 'size') {
    const awg = /^(?:awg\s*(\d{1,2}|[234]\/0)|(\d{1,2}|[234]\/0)\s*awg)$/i.exec(trimmed);
    if (awg) return { value: awgToMm2((awg[1] ?? awg[2])!) };
  }
  const match = NUMBER_UNIT.exec(trimmed);
  if (!match) {
    return /^[-−]/u.test(trimmed) && /\d/.test(trimmed)
      ? bad(`“${trimmed}” is below zero, and ${wanted.words} here is not`)
      : bad(`“${trimmed}” is not ${wanted.words}`);
  }
  const [, digits, unit] = match as unknown as [string, string, string];
  if (/^[1-9]\d{0,2},\d{3}$/.test(digits)) {
    const plain = digits.replace(',', '');
    return bad(
      `“${digits}” can be read as ${plain} or as ${digits.replace(',', '.')}`,
      `write ${plain} or ${digits.replace(',', '.')}`,
    );
  }
  const factor = wanted.units.get(unit.trim().toLowerCase());
  if (factor === undefined) {
    if (unit.trim() === '')
      return bad(
        `“${trimmed}” has no unit`,
        `add the unit: ${digits} ${wanted.example.split(' ')[1] ?? ''}`.trim(),
      );
    const other = unitOf(unit);
    return bad(
      other === undefined
        ? `“${unit.trim()}” is not a unit of ${wanted.words.replace(/^an? /, '')}`
        : `“${trimmed}” is ${other}, not ${wanted.words}`,
    );
  }
  const value = Number(digits.replace(',', '.')) * factor;
  if (value < wanted.least || value > wanted.most) {
    return {
      code: 'out-of-range',
      wrong: `${trimmed} is too ${value < wanted.least ? 'small' : 'large'} to be true`,
      mend:
        quantity === 'volts' && value > wanted.most
          ? 'this program is for systems up to 60 V DC; leave anything above to people trained for high voltage'
          : 'check the number and its unit',
    };
  }
  return { value };
}

/** Which quantity a unit belongs to, in words. */
function unitOf(unit: string): string | undefined {
  const typed = unit.trim().toLowerCase();
  return Object.values(KINDS).find((one) => typed !== '' && one.units.has(typed))?.words;
}

/** American wire gauge to mm²: d = 0.127 mm × 92^((36−n)/39), ASTM B258 (from memory). `2/0` is gauge −1. */
export function awgToMm2(gauge: string): number {
  const n = gauge.includes('/') ? 1 - Number(gauge[0]) : Number(gauge);
  const diameter = 0.127 * 92 ** ((36 - n) / 39);
  return (Math.PI / 4) * diameter * diameter;
}
