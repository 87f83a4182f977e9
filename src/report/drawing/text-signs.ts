/** The signs of a drawing in text, for screens that know more than ASCII and for those that do not. */
import type { Circuit } from '../../circuit/circuit.js';
import type { Link } from '../../circuit/links.js';

export interface Signs {
  readonly line: string;
  readonly splice: string;
  readonly fuse: string;
  readonly pin: string;
  readonly open: string;
  readonly closed: string;
  readonly lamp: string;
  readonly motor: string;
  readonly coil: string;
  readonly load: string;
  readonly ground: string;
  readonly stop: string;
  readonly fork: string;
  readonly tee: string;
  readonly corner: string;
  readonly arrow: string;
  readonly legend: string;
}

const legendOf = (s: Omit<Signs, 'legend'>): string =>
  `${s.line} wire, ${s.splice} splice or post, ${s.fuse} fuse, ${s.pin} connector pin, ${s.open} contact open, ${s.closed} contact closed, ${s.lamp} lamp, ${s.motor} motor, ${s.coil} coil, ${s.load} other, ${s.ground} ground. Names are those of the prompt; current flows downwards.`;

const SCREEN = {
  line: '│',
  splice: '●',
  fuse: '▯',
  pin: '»',
  open: '╱',
  closed: '┃',
  lamp: '⊗',
  motor: 'M',
  coil: '▭',
  load: '□',
  ground: '╧',
  stop: '╴',
  fork: '├─╮',
  tee: '├─',
  corner: '╰─',
  arrow: '>',
};

const ASCII = {
  line: '|',
  splice: 'o',
  fuse: '8',
  pin: 'v',
  open: '/',
  closed: ':',
  lamp: 'X',
  motor: 'M',
  coil: 'K',
  load: '#',
  ground: '=',
  stop: '.',
  fork: '|-.',
  tee: '|-',
  corner: "'-",
  arrow: '>',
};

export const SCREEN_SIGNS: Signs = { ...SCREEN, legend: legendOf(SCREEN) };
export const ASCII_SIGNS: Signs = { ...ASCII, legend: legendOf(ASCII) };

/** @param closed state of a contact, where it is known */
export function signOf(
  signs: Signs,
  { parts }: Circuit,
  { kind, owner }: Link,
  closed: boolean | undefined,
): string {
  switch (kind) {
    case 'wire':
      return signs.line;
    case 'pin':
      return signs.pin;
    case 'fuse':
      return signs.fuse;
    case 'contact':
      return closed === true ? signs.closed : signs.open;
    case 'coil':
      return signs.coil;
    default: {
      const type = parts.get(owner)?.type;
      return type === 'lamp' || type === 'LED lamp'
        ? signs.lamp
        : type === 'motor'
          ? signs.motor
          : signs.load;
    }
  }
}
