/**
 * Readings as people type them with dirty hands: `11,4`, `450mV`, `OL`, `1k2`, `11.8/12.4`, `no beep`.
 * The unit of the last digit typed is kept beside the value, because it is part of what the reading proves.
 */
import { parseNumber, type Parsed } from './parse-number.js';
import type { SkipReason, Typed } from './events.js';

/** A meter reading with, where it was typed as `here/battery`, the battery's volts. */
export interface MeterReading {
  readonly value: Typed;
  readonly battery: Typed | undefined;
}

/** Volts or amperes, e.g. `11.4`, `450mV`, `11.8/12.4` (here / at the battery posts). */
export function parseMeter(text: string, quantity: 'volts' | 'amps'): Parsed<MeterReading> {
  const [here, battery, ...more] = text.split('/').map((half) => half.trim());
  if (more.length > 0)
    return bad(`"${text}" has more than one "/"`, 'Type it as here/battery, for example 11.8/12.4.');
  if (isOverRange(here!)) {
    const range = quantity === 'volts' ? 'a volts' : 'an amps';
    return bad(
      `"${here}" on ${range} range only says that the meter was over its range`,
      'Choose a higher range and read again; for resistance type ohms.',
    );
  }
  const value = parseNumber(here!, quantity);
  if (!value.ok) return value;
  if (quantity === 'amps' && value.value.value < 0)
    return bad('Amps are recorded without a sign', `Type ${here!.replace(/^[-−–]\s*/, '')}.`);
  if (battery === undefined) return { ok: true, value: { value: value.value, battery: undefined } };
  const posts = parseNumber(battery, 'volts');
  if (!posts.ok) return posts;
  return { ok: true, value: { value: value.value, battery: posts.value } };
}

/** Ohms, e.g. `0.3 ohm`, `1k2`, or `OL` for a meter that shows no end value. */
export function parseOhms(text: string): Parsed<Typed | 'OL'> {
  if (isOverRange(text)) return { ok: true, value: 'OL' };
  if (yesNo(text) !== undefined || /beep/i.test(text))
    return bad(
      `"${text}" is a continuity answer, not ohms`,
      'Type beep A B yes (or no), or the ohms the meter shows.',
    );
  if (text.includes('/'))
    return bad('Battery volts do not go with a reading in ohms', 'Leave out the "/" and what follows.');
  const value = parseNumber(text, 'ohms');
  // Leads zeroed at a higher value show a small minus; nothing else in a passive circuit does.
  if (value.ok && value.value.value < -1)
    return bad(
      `A reading of ${text} ohms means the circuit was live`,
      'Switch off, unplug or pull the fuse, then measure again.',
    );
  return value;
}

/** The buzzer: `beep`, `yes`, `no beep`, `no`, `OL`. */
export function parseContinuity(text: string): Parsed<'beep' | 'no beep'> {
  const answer = yesNo(text);
  if (answer !== undefined) return { ok: true, value: answer ? 'beep' : 'no beep' };
  if (isOverRange(text)) return { ok: true, value: 'no beep' };
  if (/^[-+\d.,]/.test(text))
    return bad(`"${text}" is a number, not beep or no beep`, `To record ohms type: ohms A B ${text}`);
  return bad(`"${text}" is no answer of a buzzer`, 'Type yes (it beeps) or no (it does not).');
}

/** A test lamp: `lit`, `dim`, `off` and their everyday words. */
export function parseTestLamp(text: string): Parsed<'lit' | 'dim' | 'off'> {
  const word = plain(text);
  if (
    ['lit', 'on', 'bright', 'lights', 'yes', 'glows bright', 'flashes', 'flashing', 'blinks'].includes(word)
  )
    return { ok: true, value: 'lit' };
  if (['dim', 'faint', 'weak', 'glows', 'dull'].includes(word)) return { ok: true, value: 'dim' };
  if (['off', 'dark', 'no', 'out', 'dead', 'nothing'].includes(word)) return { ok: true, value: 'off' };
  return bad(`A test lamp cannot be "${text}"`, 'Type lit, dim or off.');
}

/** `cannot tell`, `cannot reach`, `no tool`: why a test has no answer. Undefined when the text is none of them. */
export function parseSkipReason(text: string): SkipReason | undefined {
  const word = plain(text)
    .replace("can't", 'cannot')
    .replace('can not', 'cannot')
    .replace('cant ', 'cannot ');
  if (['cannot tell', "don't know", 'dont know', 'not sure', 'unsure', '?'].includes(word))
    return 'cannot tell';
  if (['cannot reach', 'no access', 'out of reach'].includes(word)) return 'cannot reach';
  if (['no tool', 'no meter', 'no tools'].includes(word)) return 'no tool';
  return undefined;
}

/** True for every way a meter's over-range display is typed: `OL`, `0L`, `O.L`, `open`, `inf`, `∞`. */
export function isOverRange(text: string): boolean {
  return /^(o\.?l\.?|0\.?l\.?|open|over ?range|over ?load|inf(inity|inite)?|∞)$/i.test(text.trim());
}

function yesNo(text: string): boolean | undefined {
  const word = plain(text).replace(/-/g, ' ');
  if (['yes', 'y', 'beep', 'beeps', 'buzz', 'buzzes', 'tone'].includes(word)) return true;
  if (['no', 'n', 'no beep', 'no buzz', 'no tone', 'silent', 'nothing', 'none'].includes(word)) return false;
  return undefined;
}

function plain(text: string): string {
  return text.trim().toLowerCase().replace(/\s+/g, ' ');
}

function bad(message: string, mend: string): { ok: false; message: string; mend: string } {
  return { ok: false, message, mend };
}
