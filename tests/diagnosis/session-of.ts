/** A session from typed lines, for tests of the reasoner. */
import type { Diagnosis } from '../../src/diagnosis/diagnosis-types.js';
import { diagnose } from '../../src/diagnosis/diagnose.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { createWorkbench } from '../../src/diagnosis/workbench.js';
import { readCircuit } from '../../src/files/circuit-file.js';
import type { Recorded } from '../../src/session/events.js';
import { foldCase } from '../../src/session/fold.js';
import { parseLine } from '../../src/session/parse-line.js';

export async function workbenchOf(circuit: string): Promise<Workbench> {
  const loaded = await readCircuit(`circuits/${circuit}.yaml`);
  if ('problems' in loaded) throw new Error(loaded.problems.map(({ message }) => message).join('\n'));
  return createWorkbench(loaded.circuit);
}

export function recordedOf(bench: Workbench, lines: readonly string[]): Recorded[] {
  const recorded: Recorded[] = [];
  for (const line of lines) {
    const parsed = parseLine(line, bench.circuit, recorded);
    if (parsed.kind !== 'events') throw new Error(`${line}: ${JSON.stringify(parsed)}`);
    for (const event of parsed.events) recorded.push({ number: recorded.length + 1, at: '', event });
  }
  return recorded;
}

export function diagnosisOf(bench: Workbench, lines: readonly string[]): Diagnosis {
  return diagnose(bench, foldCase(bench.circuit, recordedOf(bench, lines)));
}

/** Ids of the faults still suspect. */
export function suspectIds(diagnosis: Diagnosis): string[] {
  return diagnosis.suspects.map(({ hypothesis }) => hypothesis);
}
