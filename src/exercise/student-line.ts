/**
 * What a student types: the grammar of every session, with the readings left out, for the vehicle gives those; and a few words of
 * the classroom.
 */
import type { Circuit } from '../circuit/circuit.js';
import type { Action, Event, Reading, Recorded } from '../session/events.js';
import { parseLine, type Line, type Query } from '../session/parse-line.js';
import { drawsLampCurrent } from '../session/test-lamp.js';
import type { Tool } from './exercise.js';

export type StudentLine =
  /** Drafts: findings among them have a blank value. `asks`: something is read. */
  | { readonly kind: 'events'; readonly events: readonly Event[] }
  | {
      readonly kind: 'query';
      readonly query: Query | 'hint' | 'clock' | 'concern';
      readonly about: string | undefined;
    }
  | { readonly kind: 'empty' }
  | { readonly kind: 'error'; readonly message: string; readonly mend: string };

/** A value that each measuring line can be read with, so that the line without one can be understood. */
const BLANKS: readonly (readonly [start: RegExp, blank: string])[] = [
  [/^(volts?|v|drop|vd)\s/i, '0'],
  [/^(amps?|a|clamp( meter)?)\s/i, '0'],
  [/^(ohms?|r)\s/i, '1'],
  [/^(beep|cont(inuity)?)\s/i, 'yes'],
  [/^(test ?lamp|tl|fuse ?lamp)\s/i, 'lit'],
  [/^scan\s/i, 'no answer'],
  [/^looks?\s/i, 'good'],
];

const TYPED_VALUE: StudentLine = {
  kind: 'error',
  message: 'In an exercise the vehicle gives the reading',
  mend: 'Type the test without it: volts F4.2, ohms F4, H1, look X3.',
};

export function studentLine(text: string, circuit: Circuit, recorded: readonly Recorded[]): StudentLine {
  const line = text.trim();
  const own = classroom(line, circuit, recorded);
  if (own !== undefined) return own;
  if (/^(late|before)\s/i.test(line))
    return {
      kind: 'error',
      message: 'In an exercise everything happens in the order in which it is typed',
      mend: 'Take the reading now.',
    };
  const asked = asQuestion(line, circuit, recorded);
  if (asked !== undefined) return asked;
  return plain(parseLine(line, circuit, recorded));
}

/** What a reading or step needs in the hands; undefined for eyes and bare hands. */
export function toolFor(event: Event): Tool | undefined {
  if (event.type === 'found') return toolOf(event.reading);
  return event.type === 'did' ? toolOfAction(event.action) : undefined;
}

function toolOf(reading: Reading): Tool | undefined {
  if (drawsLampCurrent(reading)) return 'test lamp';
  switch (reading.kind) {
    case 'volts':
      return 'voltmeter';
    case 'ohms':
    case 'continuity':
      return 'ohmmeter';
    case 'test lamp':
    case 'fuse lamp':
      return 'test lamp';
    case 'amps':
      return 'ammeter';
    case 'clamp':
      return 'clamp';
    case 'scan':
      return 'scan tool';
    case 'load':
    case 'look':
      return undefined;
  }
}

export function toolOfAction(action: Action): Tool | undefined {
  switch (action.do) {
    case 'jumper':
      return 'jumper';
    case 'fit known-good':
      return 'known-good parts';
    case 'lamp in place':
      return 'test lamp';
    default:
      return undefined;
  }
}

function classroom(line: string, circuit: Circuit, recorded: readonly Recorded[]): StudentLine | undefined {
  const word = /^(\S+)\s*(.*)$/s.exec(line);
  if (word === null) return undefined;
  const [, first, rest] = word as unknown as [string, string, string];
  switch (first.toLowerCase()) {
    case 'predict':
    case 'expect':
      if (rest === '')
        return {
          kind: 'error',
          message: 'It is not said what is expected',
          mend: 'For example: predict 12.4, predict low, predict off',
        };
      return { kind: 'events', events: [{ type: 'predicted', words: rest }] };
    case 'clears':
    case 'clear':
      return claim(rest.replace(/^(that )?(clears )?/i, ''), circuit, recorded);
    case 'hint':
    case 'hints':
      return rest === '' ? { kind: 'query', query: 'hint', about: undefined } : undefined;
    case 'clock':
    case 'time':
    case 'budget':
      return rest === '' ? { kind: 'query', query: 'clock', about: undefined } : undefined;
    case 'concern':
    case 'complaint':
      return rest === '' ? { kind: 'query', query: 'concern', about: undefined } : undefined;
    default:
      return undefined;
  }
}

/** `clears F4`, `clears F4 open`, `clears X3.1 S4`: each name with the words after it. */
function claim(rest: string, circuit: Circuit, recorded: readonly Recorded[]): StudentLine {
  if (rest === '')
    return {
      kind: 'error',
      message: 'It is not said what is cleared',
      mend: 'For example: clears F4, or clears F4 open',
    };
  const events: Event[] = [];
  for (const word of rest.split(/[\s,]+/)) {
    if (/^and$/i.test(word)) continue;
    const named = parseLine(`cause ${word}`, circuit, recorded);
    if (named.kind === 'events' && named.events[0]?.type === 'concluded') {
      events.push({ type: 'claimed', at: named.events[0].at, of: '' });
      continue;
    }
    const last = events.at(-1);
    if (last?.type !== 'claimed') {
      const { message, mend } = named.kind === 'error' ? named : { message: 'That names nothing', mend: '' };
      return { kind: 'error', message, mend };
    }
    events[events.length - 1] = { ...last, of: `${last.of} ${word}`.trim() };
  }
  return { kind: 'events', events };
}

function asQuestion(text: string, circuit: Circuit, recorded: readonly Recorded[]): StudentLine | undefined {
  // A stroke at the end: the battery's volts beside the reading, from a second meter there.
  const beside = /\/$/.test(text);
  const line = text.replace(/\s*\/$/, '');
  const [, head, ending] = /^(.*?)\s*\??((?:\s+when\s.*)?)$/is.exec(line) as unknown as [
    string,
    string,
    string,
  ];
  const blank = BLANKS.find(([start]) => start.test(`${head} `));
  if (blank !== undefined) {
    const value = beside && blank[1] === '0' ? '0/12' : blank[1];
    const read = parseLine(`${head} ${value}${ending}`, circuit, recorded);
    if (read.kind === 'events') return plainFound(read.events);
    const typed = parseLine(line, circuit, recorded);
    if (typed.kind === 'events')
      return typed.events.some(({ type }) => type === 'found') ? TYPED_VALUE : plain(typed);
    return read.kind === 'error' ? { kind: 'error', message: read.message, mend: read.mend } : undefined;
  }
  // What a load does: its name alone, or works, fails, see before it.
  const loads = parseLine(
    `works ${head.replace(/^(works?|fails?|dead|see|saw|hear|heard)\s+/i, '')}${ending}`,
    circuit,
    recorded,
  );
  return loads.kind === 'events' ? plainFound(loads.events) : undefined;
}

function plainFound(events: readonly Event[]): StudentLine {
  return events.every(({ type }) => type === 'found') ? { kind: 'events', events } : TYPED_VALUE;
}

/** Lines that say what only the vehicle can say are refused. */
function plain(line: Line): StudentLine {
  if (line.kind === 'error') return { kind: 'error', message: line.message, mend: line.mend };
  if (line.kind !== 'events') return line;
  if (line.events.some(({ type }) => type === 'found')) return TYPED_VALUE;
  if (line.events.some(({ type }) => type === 'symptom'))
    return {
      kind: 'error',
      message: 'In an exercise the program itself notes whether the complaint is there',
      mend: 'Look at the load again: H1.',
    };
  return { kind: 'events', events: line.events };
}
