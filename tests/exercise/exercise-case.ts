/** A small exercise and a student who types, for tests. */
import { HELP, MARKS, TOOLS, type Exercise } from '../../src/exercise/exercise.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { Run } from '../../src/exercise/run.js';
import { doAll } from '../../src/exercise/planner-road.js';
import { studentLine } from '../../src/exercise/student-line.js';
import { workbenchOf } from '../diagnosis/session-of.js';

export interface Given {
  readonly circuit?: string;
  readonly fault?: string;
  readonly severity?: number;
  readonly comesAndGoes?: boolean;
  readonly complaint?: readonly string[];
  readonly seed?: number;
}

/** Made once: what a workbench has solved serves every test. */
const benches = new Map<string, Promise<Workbench>>();

function benchOf(circuit: string): Promise<Workbench> {
  let bench = benches.get(circuit);
  if (bench === undefined) benches.set(circuit, (bench = workbenchOf(circuit)));
  return bench;
}

/** The left reversing lamp is dead: pin 1 of its connector is open. */
export async function exerciseOf({
  circuit = 'reversing-lamps',
  fault: id = 'X3.1 resistance',
  severity,
  comesAndGoes = false,
  complaint = ['fails H1 when key on, gear reverse', 'works H2 when key on, gear reverse'],
  seed = 7,
}: Given = {}) {
  const bench = await benchOf(circuit);
  const fault = bench.faults.find((one) => one.id === id);
  if (fault === undefined) throw new Error(`no fault ${id}`);
  const exercise: Exercise = {
    id: 'test',
    title: 'test',
    goal: '',
    concern: 'it does not work',
    complaint,
    faults: [{ fault, severity: severity ?? fault.scale.edges.at(-1)!, comesAndGoes }],
    seed,
    tools: new Set(TOOLS),
    budget: { minutes: 30, money: 10 },
    help: HELP[0],
    hints: [{ text: 'look at X3', minutes: 4, money: 0 }],
    marking: MARKS,
    hash: '',
  };
  return { bench, exercise };
}

export async function runOf(given: Given = {}): Promise<Run> {
  const { bench, exercise } = await exerciseOf(given);
  const run = await Run.begin(bench, exercise);
  await doAll(run, run.opening);
  return run;
}

/** Types the lines; what is refused comes back in words. */
export async function type(run: Run, ...lines: readonly string[]): Promise<readonly string[]> {
  const refused: string[] = [];
  for (const text of lines) {
    const line = studentLine(text, run.bench.circuit, run.recorded);
    if (line.kind === 'error') refused.push(line.message);
    if (line.kind !== 'events') continue;
    const refusal = run.refusal(line.events);
    if (refusal === undefined) await doAll(run, line.events);
    else refused.push(refusal.message);
  }
  return refused;
}

/** The value of the last reading. */
export function lastValue(run: Run): unknown {
  const event = run.recorded.findLast((one) => one.event.type === 'found')?.event;
  return event?.type === 'found' && 'value' in event.reading ? event.reading.value : undefined;
}

/** The whole way of a careful student. */
export const CAREFUL = [
  'H1 when key on, gear reverse',
  'key on',
  'gear reverse',
  'volts bat+',
  'volts X3.1h',
  'drop X3.1',
  'clean X3',
  'H1',
  'cause X3 pin 1',
  'done',
];
