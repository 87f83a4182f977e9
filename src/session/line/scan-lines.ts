/** Scan lines: `scan A1.3 pressed`, `scan A1.3 4.9 V`, `scan A1.3 no answer`. */
import { terminalsOf } from '../../circuit/circuit.js';
import type { Typed } from '../events.js';
import type { Parsed } from '../parse-number.js';
import { parseMeter } from '../parse-reading.js';
import type { LineContext } from './context.js';
import type { Cursor } from './cursor.js';
import { takeValue, type Measured } from './measurements.js';
import { takeFrom } from './targets.js';

const NO_ANSWER = ['no answer', 'no reply', 'no communication', 'nothing', 'silent'];

/** What a module reports of one of its inputs. */
export function takeScan(cursor: Cursor, context: LineContext): Measured {
  const inputs = new Map(
    [...context.circuit.parts.values()].flatMap((part) =>
      terminalsOf(part).map(
        (terminal) => [`${part.id}.${terminal}`.toLowerCase(), `${part.id}.${terminal}`] as const,
      ),
    ),
  );
  const name = takeFrom(cursor, 'module input', [inputs]);
  const dot = name.indexOf('.');
  return takeValue(cursor, parseScan, (value) => ({
    kind: 'scan',
    module: name.slice(0, dot),
    input: name.slice(dot + 1),
    value,
  }));
}

function parseScan(text: string): Parsed<string | Typed | 'no answer'> {
  const words = text.toLowerCase();
  if (NO_ANSWER.includes(words)) return { ok: true, value: 'no answer' };
  if (!/^[-+.,]?\d/.test(words)) return { ok: true, value: words };
  const volts = parseMeter(text, 'volts');
  return volts.ok ? { ok: true, value: volts.value.value } : volts;
}
