/** The reversing lamps as a circuit for tests, and helpers that type lines as a person would. */
import { fileURLToPath } from 'node:url';
import type { Circuit } from '../../src/circuit/circuit.js';
import { readCircuit } from '../../src/files/circuit-file.js';
import { nextNumber } from '../../src/session/decide.js';
import type { Event, Recorded } from '../../src/session/events.js';
import { parseLine } from '../../src/session/parse-line.js';

const file = fileURLToPath(new URL('../../circuits/reversing-lamps.yaml', import.meta.url));
const loaded = await readCircuit(file);
if (!('circuit' in loaded)) throw new Error(`${file} does not load: ${JSON.stringify(loaded.problems)}`);

export const circuit: Circuit = loaded.circuit;

export function numbered(events: readonly Event[]): readonly Recorded[] {
  return events.map((event, index) => ({ number: index + 1, at: '', event }));
}

/** The events of the line, typed when that much is recorded; throws with the program's own words when it is refused. */
export function eventsOf(line: string, recorded: readonly Recorded[] = []): readonly Event[] {
  const parsed = parseLine(line, circuit, recorded);
  if (parsed.kind === 'events') return parsed.events;
  throw new Error(
    parsed.kind === 'error'
      ? `${line}: ${parsed.at}: ${parsed.message} ${parsed.mend}`
      : `${line}: ${parsed.kind}`,
  );
}

/** Types the lines one after the other. */
export function typed(...lines: readonly string[]): readonly Recorded[] {
  const recorded: Recorded[] = [];
  for (const line of lines)
    for (const event of eventsOf(line, recorded))
      recorded.push({ number: nextNumber(recorded), at: '', event });
  return recorded;
}
