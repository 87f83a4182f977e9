/** The simulated vehicle reads the same whichever physics stands behind it. */
import { readdirSync } from 'node:fs';
import { beforeAll, expect, test } from 'vitest';
import { createWorkbench } from '../../src/diagnosis/workbench.js';
import { drawFaults } from '../../src/exercise/hidden-faults.js';
import { pick, random } from '../../src/exercise/random.js';
import { SimulatedCar } from '../../src/exercise/simulated-car.js';
import { SolverPhysics } from '../../src/exercise/solver-car.js';
import type { Answer } from '../../src/exercise/car.js';
import type { Physics } from '../../src/exercise/physics.js';
import { readCircuit } from '../../src/files/circuit-file.js';
import { drivenSetUps } from '../../src/diagnosis/evidence.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import type { Typed } from '../../src/session/events.js';
import { Ngspice } from '../oracle/ngspice.js';
import { damp, NgspicePhysics } from './ngspice-physics.js';

interface Told {
  readonly what: string;
  readonly answer: Answer | undefined;
}

/** Everything one vehicle answers to the same questions. */
async function answers(bench: Workbench, physics: Physics, seed: number): Promise<Told[]> {
  const draw = random(seed);
  const faults = drawFaults(bench.faults, pick(draw, [1, 2]), draw);
  const car = new SimulatedCar(bench, physics, draw, faults, draw() < 0.25);
  const said: Told[] = [];
  const points = [...bench.network.points.keys()];
  for (const setUp of drivenSetUps(bench).slice(0, 4)) {
    const red = pick(draw, points);
    const black = pick(draw, points);
    const loads = [...bench.network.loads.keys()];
    if (red === black) continue;
    for (const reading of [
      { kind: 'volts', red, black, value: { value: 0, step: 0.01 } },
      { kind: 'ohms', red, black, value: 'OL' },
      ...(loads.length > 0 ? [{ kind: 'load', load: pick(draw, loads), value: 'off' } as const] : []),
    ] as const)
      said.push({
        what: `${bench.circuit.id} seed ${seed}, ${faults.map(({ fault }) => fault.id).join(' + ')}`,
        answer: await car.answer(setUp, reading),
      });
  }
  return said;
}

/** Numbers of an answer, and the rest of it. */
function parts(answer: Answer | undefined): { numbers: readonly Typed[]; rest: string } {
  if (answer === undefined) return { numbers: [], rest: 'refused' };
  const { reading, battery } = answer;
  const value = 'value' in reading && typeof reading.value === 'object' ? [reading.value] : [];
  const rest = value.length > 0 ? { ...reading, value: '' } : reading;
  return { numbers: [...value, battery], rest: JSON.stringify(rest) };
}

/** ngspice keeps 1 pS at every node, so a floating point may differ in the last digit. */
function alike(one: Typed | undefined, other: Typed | undefined): boolean {
  if (one === undefined || other === undefined || one.step !== other.step) return false;
  return Math.abs(one.value - other.value) <= 1.001 * one.step + 1e-3 * Math.abs(other.value);
}

/** With the damp that ngspice needs: a stretch that hangs on nothing else reads by it. */
function damped(physics: Physics): Physics {
  return { volts: (decided) => physics.volts(decided.map((one) => damp(one))) };
}

let ngspice: Ngspice;
beforeAll(async () => {
  ngspice = await Ngspice.start();
});

test.each(readdirSync('circuits'))(
  'when ngspice stands behind a vehicle with %s then it answers as with our solver',
  async (file) => {
    const loaded = await readCircuit(`circuits/${file}`);
    if ('problems' in loaded) throw new Error(`${file} does not load`);
    const bench = createWorkbench(loaded.circuit);
    // Any number will do, if it is not the same for all circuits.
    const seed = 1 + (file.length % 4);
    const ours = await answers(bench, damped(new SolverPhysics()), seed);
    const theirs = await answers(bench, new NgspicePhysics(ngspice), seed);
    ours.forEach(({ what, answer }, i) => {
      const [here, there] = [parts(answer), parts(theirs[i]!.answer)];
      expect(`${what}: ${there.rest}`).toBe(`${what}: ${here.rest}`);
      here.numbers.forEach((number, n) => {
        const both = `${what}: ${number.value} here, ${there.numbers[n]?.value} in ngspice`;
        expect(alike(number, there.numbers[n]) ? '' : both).toBe('');
      });
    });
    expect(ours.length).toBeGreaterThan(2);
  },
);
