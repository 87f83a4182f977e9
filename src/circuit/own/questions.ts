/** The questions that lead to a circuit of one's own: a dozen, each with an answer for Enter and a way to be asked again. */
import { parseQuantity, type Quantity } from '../quantity.js';
import { feedSize } from '../wire-capacity.js';
import { lampNames, MOST_LOADS, parseLoads, type OwnLoad, type Understood } from './loads.js';
import { ampsOf, type Wish } from './wish.js';

export interface Question<K extends keyof Wish = keyof Wish> {
  readonly key: K;
  /** How it is called as a flag and in a file of answers. */
  readonly flag: string;
  readonly ask: (soFar: Partial<Wish>) => string;
  /** What may be answered, or an example. */
  readonly hint?: string;
  /** What Enter means, in words that `parse` understands; depends on the answers before it. */
  readonly usual: (soFar: Partial<Wish>) => string;
  readonly parse: (text: string, soFar: Partial<Wish>) => Understood<Wish[K]>;
  /** Asked only where it makes sense. */
  readonly when?: (soFar: Partial<Wish>) => boolean;
}

/** Fuses that are sold, amperes (ISO 8820-3, from memory). */
const RATINGS = [1, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 60, 80, 100];
/** A fuse is chosen so that its loads draw at most this part of it (common practice, no source). */
const FILLED = 0.75;
/** Long wires of vehicles are not made thinner, for their strength (common practice, no source), mm2. */
const THINNEST = 0.75;

function question<K extends keyof Wish>(one: Question<K>): Question {
  return one as unknown as Question;
}

export const QUESTIONS: readonly Question[] = [
  question({
    key: 'title',
    flag: 'title',
    ask: () => 'What is the circuit called?',
    usual: () => 'My circuit',
    parse: (text) => nameIn(text, 120),
  }),
  question({
    key: 'volts',
    flag: 'volts',
    ask: () => 'Volts of the system?',
    hint: '6, 12 or 24',
    usual: () => '12 V',
    parse: (text) => {
      const volts = Number(/^(6|12|24)\s*v?$/i.exec(text)?.[1]);
      return volts > 0
        ? { value: volts }
        : { wrong: `"${text}" is not 6, 12 or 24 V`, mend: 'write 12 or 24' };
    },
  }),
  question({
    key: 'loads',
    flag: 'loads',
    ask: () => 'Which loads?',
    hint: `like: 2 stop lamps 21 W, horn 5 A; or by what is printed on them: ${lampNames()}`,
    usual: () => '2 lamps 21 W',
    parse: (text, { volts = 12 }) => parseLoads(text, volts),
  }),
  question({
    key: 'control',
    flag: 'switch',
    ask: () => 'What switches them on?',
    hint: 'a name, like: light switch, brake pedal',
    usual: () => 'light switch',
    parse: (text) => nameIn(text, 40),
  }),
  question({
    key: 'positions',
    flag: 'positions',
    ask: () => 'Its positions, the one at rest first?',
    hint: 'in all but the first the loads are on',
    usual: ({ control = '' }) =>
      /pedal/i.test(control) ? 'up, down' : /button/i.test(control) ? 'out, pressed' : 'off, on',
    parse: positionsIn,
  }),
  question({
    key: 'helper',
    flag: 'helper',
    ask: () => 'Must somebody hold it while another person measures?',
    hint: 'yes, no',
    usual: ({ control = '' }) => (/pedal|button/i.test(control) ? 'yes' : 'no'),
    parse: yesNo,
  }),
  question({
    key: 'through',
    flag: 'through',
    ask: () => 'Does the switch carry the current itself, or does it work a relay or a module?',
    hint: 'switch, relay, module',
    usual: () => 'switch',
    parse: oneOf('switch', 'relay', 'module'),
  }),
  question({
    key: 'side',
    flag: 'side',
    ask: ({ through }) =>
      ({
        relay: 'Does the switch feed the coil of the relay, or does it ground it?',
        module: 'Does the switch put battery + or ground on the input of the module?',
        switch: 'Is it switched in the feed or on the ground side?',
      })[through ?? 'switch'],
    hint: 'feed, ground',
    usual: () => 'feed',
    parse: oneOf('feed', 'ground'),
  }),
  question({
    key: 'live',
    flag: 'live',
    ask: () => 'Is the feed live always, or only with the key on?',
    hint: 'always, key',
    usual: () => 'always',
    parse: oneOf('always', 'key'),
  }),
  question({
    key: 'also',
    flag: 'also',
    ask: () => 'What else hangs on the same fuse?',
    hint: 'one load that is easy to try, like: horn 5 A; none',
    usual: () => 'none',
    parse: (text, { volts = 12 }): Understood<OwnLoad | undefined> => {
      if (/^(none|nothing|no|-)$/i.test(text)) return { value: undefined };
      const read = parseLoads(text, volts);
      if ('wrong' in read) return read;
      return read.value.length === 1
        ? { value: read.value[0] }
        : { wrong: 'that is more than one load', mend: 'name the one that is easiest to try, or none' };
    },
  }),
  question({
    key: 'fuseAmps',
    flag: 'fuse',
    ask: () => 'Rating of the fuse?',
    usual: ({ loads = [], also }) => {
      const amps = ampsOf(also === undefined ? loads : [...loads, also]);
      return `${RATINGS.find((rating) => rating >= 5 && rating * FILLED >= amps) ?? 100} A`;
    },
    parse: (text) => amountIn(text, 'amps', 'A'),
  }),
  question({
    key: 'grounds',
    flag: 'grounds',
    ask: () => 'How many ground points do the loads share?',
    usual: () => '1',
    when: ({ side, through }) => side === 'feed' || through !== 'switch',
    parse: (text, { loads = [] }) => {
      const count = Number(text);
      return Number.isInteger(count) && count >= 1 && count <= loads.length
        ? { value: count }
        : {
            wrong: `"${text}" is not a number of ground points for ${loads.length} loads`,
            mend: `write 1 to ${loads.length}`,
          };
    },
  }),
  question({
    key: 'connectors',
    flag: 'connectors',
    ask: () => 'Where are plug connectors?',
    hint: 'none, loom = one in the wire from the switch, loads = one at each load, both',
    usual: () => 'loads',
    parse: oneOf('none', 'loom', 'loads', 'both'),
  }),
  question({
    key: 'metres',
    flag: 'length',
    ask: () => 'About how long is the wire from the switch to the loads?',
    usual: () => '4 m',
    parse: (text) => amountIn(text, 'length', 'm'),
  }),
  question({
    key: 'mm2',
    flag: 'size',
    ask: () => 'Its size?',
    hint: 'mm2 or AWG',
    usual: ({ loads = [], metres = 4, volts = 12, fuseAmps = 10 }) =>
      `${Math.max(THINNEST, feedSize(fuseAmps, ampsOf(loads), metres, volts))} mm2`,
    parse: (text) =>
      /^\d+(?:[.,]\d+)?$/.test(text) ? amountIn(`${text} mm2`, 'size', 'mm2') : amountIn(text, 'size', 'mm2'),
  }),
];

export { MOST_LOADS };

/** The answers, Enter for all that is left out: for a program, or when nobody is asked. */
export function answerAll(given: ReadonlyMap<string, string>): Understood<Wish> & { readonly flag?: string } {
  let soFar: Partial<Wish> = {};
  for (const { key, flag, usual, parse, when } of QUESTIONS) {
    const asked = when?.(soFar) ?? true;
    const text = asked ? (given.get(flag) ?? usual(soFar)) : usual(soFar);
    const read = parse(text.trim(), soFar);
    if ('wrong' in read) return { ...read, flag };
    soFar = { ...soFar, [key]: read.value };
  }
  return { value: soFar as Wish };
}

function oneOf<T extends string>(...words: readonly T[]) {
  return (text: string): Understood<T> => {
    const typed = text.toLowerCase();
    const fits = words.filter((word) => typed !== '' && word.startsWith(typed));
    return fits.length === 1
      ? { value: fits[0]! }
      : { wrong: `"${text}" is none of ${words.join(', ')}`, mend: `write one of ${words.join(', ')}` };
  };
}

function yesNo(text: string): Understood<boolean> {
  if (/^(y|yes|true)$/i.test(text)) return { value: true };
  if (/^(n|no|false)$/i.test(text)) return { value: false };
  return { wrong: `"${text}" is neither yes nor no`, mend: 'write yes or no' };
}

function nameIn(text: string, most: number): Understood<string> {
  const name = text.trim().replace(/\s+/g, ' ');
  if (name.length > most) return { wrong: `that has ${name.length} characters`, mend: `at most ${most}` };
  return /^[\p{L}\p{N}][\p{L}\p{N} ._/()+-]*$/u.test(name)
    ? { value: name }
    : {
        wrong: `"${text}" has signs that a name cannot have`,
        mend: 'use letters, digits, spaces and . _ / ( ) + -',
      };
}

function positionsIn(text: string): Understood<readonly string[]> {
  const list = text
    .split(/[,;/]/)
    .map((one) => one.trim())
    .filter((one) => one !== '');
  if (list.length < 2)
    return { wrong: 'a switch has at least two positions', mend: 'write them like: off, on' };
  if (list.length > 24)
    return { wrong: 'that is more than 24 positions', mend: 'leave out those that do nothing here' };
  if (new Set(list.map((one) => one.toLowerCase())).size < list.length)
    return { wrong: 'one position is there twice', mend: 'give each another name' };
  for (const one of list) {
    const read = nameIn(one, 40);
    if ('wrong' in read) return read;
  }
  return { value: list };
}

function amountIn(text: string, quantity: Quantity, unit: string): Understood<number> {
  const read = parseQuantity(/^\d+(?:[.,]\d+)?$/.test(text) ? `${text} ${unit}` : text, quantity);
  return 'value' in read ? { value: read.value } : { wrong: read.wrong, mend: read.mend };
}
