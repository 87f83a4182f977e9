/** From the voltages of a vehicle to what a person writes down: meter error, digits typed, words of eye and ear. */
import type { Quantity } from '../diagnosis/observe.js';
import type { Band } from '../diagnosis/sights.js';
import { ledBand, sightBand, WORDS } from '../diagnosis/sights.js';
import { BUZZER_OHMS, ohmmeterReads } from '../network/meters.js';
import type { LoadKind, Scan } from '../network/network.js';
import type { Reading, Sight, Typed } from '../session/events.js';
import type { Instrument } from './instrument.js';
import type { Draw } from './random.js';
import { around, pick, pickByWeight } from './random.js';

/** Errors of this person's meter as parts of the reading: inside what the program allows for (see network/meters.ts). */
const ERROR = { volts: 0.004, ohms: 0.008, amps: 0.012, clamp: 0.015, scan: 0.02 };
/** Shares of rated volts between which everybody says that a lamp flashes. */
const FLASHES = { bright: 0.6, dark: 0.1 };
/** This far inside its band everybody would use the word. */
const PLAIN = 0.25;
/** Inputs of modules end there. */
const REFERENCE_VOLTS = 5;
/** Leads that were not zeroed, ohms. */
const LEADS = 0.4;
/** Above this an ordinary ohmmeter shows OL. */
const OVERLOAD = 2e6;

export interface Watched {
  readonly kind: LoadKind;
  /** Volts over the rated volts of the item that is fitted, in its bright moments; signed, for an LED cares. */
  readonly share: number;
  /** The same in the other state of a flasher; undefined where nothing flashes. */
  readonly dark: number | undefined;
  readonly chatters: boolean;
  /** Of a relay: whether its armature has moved. */
  readonly pulled: boolean | undefined;
}

/** What a module tells a scan tool. */
export interface Reported {
  readonly scan: Scan;
  readonly answers: boolean;
}

/**
 * The reading with a value.
 * @param across volts between the two nodes of the quantity, or amperes where it is a current
 * @param load the load that is watched, for such readings
 * @param report of a module, for such readings
 * @param instrument a meter whose error stays the same; left out = each reading errs for itself, and a person may leave digits out
 */
export function readOut(
  draw: Draw,
  reading: Reading,
  quantity: Quantity,
  across: number,
  load: Watched | undefined,
  report: Reported | undefined,
  instrument?: Instrument,
): Reading | undefined {
  switch (reading.kind) {
    case 'volts':
      return { ...reading, value: instrument?.show('volts', across, draw) ?? typedVolts(draw, across) };
    case 'ohms': {
      const ohms = ohmmeterReads(across) + (instrument?.leads ?? LEADS * draw());
      if (ohms > OVERLOAD) return { ...reading, value: 'OL' };
      return { ...reading, value: instrument?.show('ohms', ohms, draw) ?? typedOhms(draw, ohms) };
    }
    case 'continuity': {
      const limit = BUZZER_OHMS.surelySounds + draw() * (BUZZER_OHMS.surelySilent - BUZZER_OHMS.surelySounds);
      return { ...reading, value: ohmmeterReads(across) + LEADS * draw() < limit ? 'beep' : 'no beep' };
    }
    case 'amps':
    case 'clamp': {
      const amps = Math.abs(across) / quantity.scale;
      if (instrument !== undefined) return { ...reading, value: instrument.show(reading.kind, amps, draw) };
      return { ...reading, value: typed(amps * around(draw, ERROR.amps), pick(draw, [0.01, 0.1])) };
    }
    case 'load': {
      const value = sight(draw, load!, instrument !== undefined);
      return value === undefined ? undefined : { ...reading, value };
    }
    case 'test lamp':
    case 'fuse lamp':
      return {
        ...reading,
        value: glow(
          draw,
          reading.kind === 'test lamp' && reading.lamp === 'LED',
          across / quantity.scale,
          instrument !== undefined,
        ),
      };
    case 'scan':
      return { ...reading, value: scanned(draw, report!, across) };
    default:
      return undefined;
  }
}

/** Two decimals mostly, as the display has them; at times a person leaves some out. */
export function typedVolts(draw: Draw, volts: number): Typed {
  return typed(volts * around(draw, ERROR.volts), pick(draw, [0.01, 0.01, 0.1, 1]));
}

function typedOhms(draw: Draw, ohms: number): Typed {
  const step = ohms < 200 ? 0.1 : 10 ** Math.floor(Math.log10(ohms) - 2);
  return typed(ohms * around(draw, ERROR.ohms), step);
}

function typed(value: number, step: number): Typed {
  return { value: Number((Math.round(value / step) * step).toFixed(3)), step };
}

/** @param plain always the brightest word that fits */
function glow(draw: Draw, led: boolean, volts: number, plain: boolean): 'lit' | 'dim' | 'off' {
  const share = Math.abs(volts);
  const bandOf = (word: 'lit' | 'dim' | 'off') => (led ? ledBand(word) : sightBand('lamp', word));
  const words = (['lit', 'dim', 'off'] as const).filter((word) => {
    const { low, high } = bandOf(word);
    return share >= low && share <= high;
  });
  return plain ? words[0]! : pickByWeight(draw, words, (word) => aptness(bandOf(word), share));
}

/**
 * A word that a person could use for this: the bands overlap, so there may be several; undefined where a relay holds at so few
 * volts that nobody can say.
 * @param plain always the one that comes to mind first
 */
function sight(
  draw: Draw,
  { kind, share, dark, chatters, pulled }: Watched,
  plain: boolean,
): Sight | undefined {
  if (chatters && (kind === 'relay' || kind === 'solenoid')) return 'chatters';
  const seen = kind === 'LED' ? share : Math.abs(share);
  if (dark !== undefined && Math.abs(seen) > FLASHES.bright && Math.abs(dark) < FLASHES.dark)
    return 'flashes';
  const words = WORDS[kind].filter((word) => {
    const { low, high } = sightBand(kind, word);
    const heard = pulled === undefined || pulled === (word === 'clicks');
    return heard && seen >= low && seen <= high;
  });
  if (words.length === 0) return undefined;
  const apt = (word: Sight) => aptness(sightBand(kind, word), seen);
  if (plain) return words.reduce((best, word) => (apt(word) > apt(best) ? word : best));
  return pickByWeight(draw, words, apt);
}

/** How readily a word comes to mind: near the edge of its band hardly anybody says it any more. */
function aptness({ low, high }: Band, share: number): number {
  const inside = Math.min(low <= 0 ? Infinity : share - low, high - share);
  return Math.min(1, Math.max(0.1, inside / PLAIN)) ** 2;
}

function scanned(draw: Draw, { scan, answers }: Reported, volts: number): string | Typed {
  if (!answers) return 'no answer';
  if (scan.reads === 'volts') {
    const shown = Math.min(REFERENCE_VOLTS, Math.max(0, volts));
    return typed(shown * around(draw, ERROR.scan), 0.1);
  }
  const { highVolts, lowVolts, reads } = scan;
  const high = volts >= lowVolts + (highVolts - lowVolts) * draw();
  return high ? reads.high : reads.low;
}
