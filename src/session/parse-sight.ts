/** How a load looks or sounds, and how a part looks, in everyday words brought to the few that the record keeps. */
import type { LoadKind } from '../network/network.js';
import type { Look, Sight } from './events.js';
import type { Parsed } from './parse-number.js';

export type { LoadKind } from '../network/network.js';

/** The word for "does what it should" and for "does nothing", by kind of load. */
export const WORKING: Record<LoadKind, Sight> = {
  lamp: 'lit',
  LED: 'lit',
  horn: 'sounds',
  motor: 'runs',
  relay: 'clicks',
  solenoid: 'clicks',
  heater: 'hot',
  load: 'works',
};
export const FAILING: Record<LoadKind, Sight> = {
  lamp: 'off',
  LED: 'off',
  horn: 'silent',
  motor: 'stopped',
  relay: 'silent',
  solenoid: 'silent',
  heater: 'cold',
  load: 'dead',
};

/** What a kind of load is called in a sentence. */
const CALLED: Record<LoadKind, string> = {
  lamp: 'a lamp',
  LED: 'an LED lamp',
  horn: 'a horn',
  motor: 'a motor',
  relay: 'a relay',
  solenoid: 'a solenoid',
  heater: 'a heater',
  load: 'this load',
};

const GOOD = ['works', 'working', 'on', 'ok', 'good', 'yes', 'normal', 'fine'];
const DEAD = ['fails', 'off', 'dead', 'no', 'nothing', 'out', 'not working', 'does not work', 'none'];

type Words = Partial<Record<Sight, readonly string[]>>;

const LIGHT: Words = {
  lit: ['lit', 'bright', 'lights', 'light', 'burns', 'full', ...GOOD],
  dim: ['dim', 'faint', 'weak', 'glows', 'glowing', 'dull'],
  off: ['off', 'dark', 'unlit', ...DEAD],
  flickers: ['flickers', 'flicker', 'flickering', 'comes and goes'],
  'flashes fast': ['flashes fast', 'fast', 'flashes quickly', 'flashes double', 'blinks fast', 'hyperflash'],
  flashes: ['flashes', 'flash', 'flashing', 'blinks', 'blinking', 'flashes slow', 'flashes slowly'],
};
const COIL: Words = {
  clicks: ['clicks', 'click', 'pulls', 'pulls in', ...GOOD],
  chatters: ['chatters', 'chatter', 'buzzes', 'rattles', 'rapid clicking'],
  silent: ['silent', 'no click', 'does not click', ...DEAD],
};
const WORDS: Record<LoadKind, Words> = {
  lamp: LIGHT,
  LED: LIGHT,
  horn: {
    sounds: ['sounds', 'sound', 'loud', 'blows', 'honks', 'buzzes', 'beeps', ...GOOD],
    weak: ['weak', 'faint', 'quiet', 'hoarse', 'croaks'],
    silent: ['silent', 'mute', ...DEAD],
  },
  motor: {
    runs: ['runs', 'run', 'running', 'turns', 'spins', ...GOOD],
    slow: ['slow', 'slowly', 'weak', 'runs slow', 'drags'],
    stopped: ['stopped', 'stops', 'stop', 'stands', 'still', 'does not run', 'does not turn', ...DEAD],
  },
  relay: COIL,
  solenoid: COIL,
  heater: {
    hot: ['hot', 'heats', 'warms', ...GOOD],
    lukewarm: ['lukewarm', 'warm', 'tepid', 'weak', 'slow'],
    cold: ['cold', 'does not heat', 'not warm', ...DEAD],
  },
  load: {
    works: ['works', 'running', 'runs', ...GOOD],
    dead: ['dead', 'does not run', ...DEAD],
  },
};

/** What the load of this kind was seen or heard to do. */
export function parseSight(text: string, kind: LoadKind): Parsed<Sight> {
  const word = text.trim().toLowerCase().replace(/\s+/g, ' ');
  for (const [sight, words] of Object.entries(WORDS[kind]))
    if (words.includes(word)) return { ok: true, value: sight as Sight };
  const known = Object.keys(WORDS[kind]).join(', ');
  const elsewhere = Object.entries(WORDS).find(([, sights]) =>
    Object.values(sights).some((w) => w.includes(word)),
  );
  return {
    ok: false,
    message: elsewhere
      ? `${capital(CALLED[kind])} is not "${text}"; that is said of ${CALLED[elsewhere[0] as LoadKind]}`
      : `"${text}" says nothing about ${CALLED[kind]}`,
    mend: `Type one of: ${known}, or cannot tell.`,
  };
}

function capital(words: string): string {
  return words[0]!.toUpperCase() + words.slice(1);
}

/** True when some kind of load could be described by this word. */
export function isSight(text: string): boolean {
  const word = text.trim().toLowerCase();
  return Object.values(WORDS).some((sights) => Object.values(sights).some((words) => words.includes(word)));
}

const LOOKS: Record<Look, readonly string[]> = {
  good: ['good', 'ok', 'fine', 'clean', 'dry', 'intact'],
  blown: ['blown', 'fused'],
  broken: ['broken', 'cracked', 'cut', 'chafed', 'frayed', 'snapped', 'torn'],
  burnt: ['burnt', 'burned', 'melted', 'scorched', 'black', 'brown'],
  corroded: ['corroded', 'corrosion', 'green', 'rusty', 'rust', 'dirty', 'oxidised', 'oxidized'],
  loose: ['loose', 'slack', 'backed out', 'pushed back'],
  wet: ['wet', 'damp', 'water', 'moist'],
  'wrong part': ['wrong part', 'wrong', 'wrong lamp', 'wrong fuse', 'wrong bulb'],
};

/** How a part, wire or contact looks. */
export function parseLook(text: string): Parsed<Look> {
  const word = text.trim().toLowerCase().replace(/\s+/g, ' ');
  for (const [look, words] of Object.entries(LOOKS))
    if (words.includes(word)) return { ok: true, value: look as Look };
  return {
    ok: false,
    message: word === '' ? 'It is not said how it looks' : `"${text}" is not a look the record knows`,
    mend: `Type one of: ${Object.keys(LOOKS).join(', ')}. Anything else: note TEXT.`,
  };
}
