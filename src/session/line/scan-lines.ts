/** Scan lines: `scan A1.3 pressed`, `scan A1.3 4.9 V`, `scan A1.3 no answer`. */
import type { ModuleInput } from '../../circuit/circuit.js';
import type { Typed } from '../events.js';
import type { Parsed } from '../parse-number.js';
import { parseMeter } from '../parse-reading.js';
import { scanChoices, scanInputs, scanWords } from '../scan-words.js';
import type { LineContext } from './context.js';
import type { Cursor } from './cursor.js';
import { takeValue, type Measured } from './measurements.js';
import { takeFrom } from './targets.js';

const NO_ANSWER = ['no answer', 'no reply', 'no communication', 'nothing'];

/** What a module reports of one of its inputs. */
export function takeScan(cursor: Cursor, { circuit }: LineContext): Measured {
  const inputs = scanInputs(circuit);
  const names = new Map([...inputs.keys()].map((name) => [name.toLowerCase(), name]));
  const name = takeFrom(cursor, 'module input', [names]);
  const dot = name.indexOf('.');
  return takeValue(
    cursor,
    (text) => parseScan(text, inputs.get(name)!),
    (value) => ({ kind: 'scan', module: name.slice(0, dot), input: name.slice(dot + 1), value }),
  );
}

function parseScan(text: string, input: ModuleInput): Parsed<string | Typed | 'no answer'> {
  const lower = text.toLowerCase();
  const word = scanWords(input).find((known) => known.toLowerCase() === lower);
  if (word !== undefined) return { ok: true, value: word };
  if (NO_ANSWER.includes(lower)) return { ok: true, value: 'no answer' };
  if (/^[-+.,]?\d/.test(lower)) {
    const volts = parseMeter(text, 'volts');
    return volts.ok ? { ok: true, value: volts.value.value } : volts;
  }
  return {
    ok: false,
    message: text === '' ? 'It is not said what the scan tool shows' : `This input never reads "${text}"`,
    mend: `Type one of: ${scanChoices(input)}.`,
  };
}
