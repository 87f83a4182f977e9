/** How a load looks or sounds, and how a part looks, in everyday words brought to the few that the record keeps. */
import type { Look, Sight } from './events.js';
import type { Parsed } from './parse-number.js';

/** What a person can watch or hear. A relay is listened to. */
export type LoadKind = 'lamp' | 'horn' | 'motor' | 'relay';

/** The word for "does what it should" and for "does nothing", by kind of load. */
export const WORKING: Record<LoadKind, Sight> = {
  lamp: 'lit',
  horn: 'sounds',
  motor: 'runs',
  relay: 'clicks',
};
export const FAILING: Record<LoadKind, Sight> = {
  lamp: 'off',
  horn: 'silent',
  motor: 'stopped',
  relay: 'silent',
};

const GOOD = ['works', 'working', 'on', 'ok', 'good', 'yes', 'normal', 'fine'];
const DEAD = ['fails', 'off', 'dead', 'no', 'nothing', 'out', 'not working', 'does not work', 'none'];

const WORDS: Record<LoadKind, Partial<Record<Sight, readonly string[]>>> = {
  lamp: {
    lit: ['lit', 'bright', 'lights', 'light', 'burns', 'full', ...GOOD],
    dim: ['dim', 'faint', 'weak', 'glows', 'glowing', 'dull'],
    off: ['off', 'dark', 'unlit', ...DEAD],
    flickers: ['flickers', 'flicker', 'flickering', 'flashes', 'blinks', 'comes and goes'],
  },
  horn: {
    sounds: ['sounds', 'sound', 'loud', 'blows', 'honks', ...GOOD],
    weak: ['weak', 'faint', 'quiet', 'hoarse', 'croaks'],
    silent: ['silent', 'mute', ...DEAD],
  },
  motor: {
    runs: ['runs', 'run', 'running', 'turns', 'spins', ...GOOD],
    slow: ['slow', 'slowly', 'weak', 'runs slow', 'drags'],
    stopped: ['stopped', 'stops', 'stop', 'stands', 'still', 'does not run', 'does not turn', ...DEAD],
  },
  relay: {
    clicks: ['clicks', 'click', 'pulls', 'pulls in', ...GOOD],
    chatters: ['chatters', 'chatter', 'buzzes', 'rattles', 'rapid clicking'],
    silent: ['silent', 'no click', 'does not click', ...DEAD],
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
      ? `A ${kind} is not "${text}"; that is said of a ${elsewhere[0]}`
      : `"${text}" says nothing about a ${kind}`,
    mend: `Type one of: ${known}, or cannot tell.`,
  };
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
