/** True findings of a simulated vehicle with hidden faults, all in one set-up, for properties of the reasoner. */
import { drawFaults } from '../../src/exercise/hidden-faults.js';
import type { Draw } from '../../src/exercise/random.js';
import { pick, random } from '../../src/exercise/random.js';
import { SimulatedCar } from '../../src/exercise/simulated-car.js';
import { SolverPhysics } from '../../src/exercise/solver-car.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { edit } from '../../src/session/actions.js';
import type { Action, Event, Reading } from '../../src/session/events.js';
import { atRest } from '../../src/session/setup.js';

export interface Simulated {
  /** Control positions, once, before everything else. */
  readonly before: readonly Event[];
  readonly findings: readonly Event[];
  /** Hidden faults with their severities. */
  readonly hidden: readonly { readonly id: string; readonly severity: number }[];
}

const BLANK = { value: 0, step: 0.01 };
const PROOFS = (['volts', 'ohms', 'test lamp'] as const).map((mode): Event => ({ type: 'proved', mode }));

/** Steady faults, readings at random points and of random loads; nothing is touched. */
export async function simulate(
  bench: Workbench,
  seed: number,
  faults: number,
  readings: number,
): Promise<Simulated> {
  const draw = random(seed);
  const hidden = drawFaults(bench.faults, faults, draw).map((fault) => ({ ...fault, comesAndGoes: false }));
  const car = new SimulatedCar(bench, new SolverPhysics(), draw, hidden, false);
  let setUp = atRest(bench.circuit);
  const before: Event[] = [...PROOFS];
  for (const control of bench.circuit.controls.values()) {
    const action: Action = { do: 'operate', control: control.id, position: pick(draw, control.positions) };
    setUp = edit(action, setUp);
    await car.act(action, setUp);
    before.push({ type: 'did', action });
  }
  const findings: Event[] = [];
  for (let i = 0; i < readings; i++) {
    const answer = await car.answer(setUp, question(bench, draw));
    if (answer !== undefined) findings.push({ type: 'found', reading: answer.reading, symptom: 'present' });
  }
  return { before, findings, hidden: hidden.map(({ fault, severity }) => ({ id: fault.id, severity })) };
}

function question(bench: Workbench, draw: Draw): Reading {
  const points = [...bench.network.points.keys()].filter((point) => !['bat-', 'bat+'].includes(point));
  if (draw() < 0.5) return { kind: 'load', load: pick(draw, [...bench.network.loads.keys()]), value: 'off' };
  return { kind: 'volts', red: pick(draw, points), black: 'bat-', value: BLANK };
}
