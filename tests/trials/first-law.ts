/**
 * The first law, measured: true readings never rule out the true fault. Sessions on a simulated car; tests drawn at random from
 * every kind a person could do, so that the verdicts meet readings nobody would have chosen.
 */
import { gather } from '../../src/diagnosis/evidence.js';
import { judge } from '../../src/diagnosis/verdict.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { edit } from '../../src/session/actions.js';
import type { Event, Reading, Recorded } from '../../src/session/events.js';
import { foldCase } from '../../src/session/fold.js';
import { atRest } from '../../src/session/setup.js';
import type { SetUp } from '../../src/session/setup.js';
import { drawFaults } from '../../src/exercise/hidden-faults.js';
import { pick as pickOf, random } from '../../src/exercise/random.js';
import { SimulatedCar } from '../../src/exercise/simulated-car.js';
import { SolverPhysics } from '../../src/exercise/solver-car.js';
import { drivenSetUps } from '../../src/diagnosis/evidence.js';
import { canBlow } from '../../src/diagnosis/faults.js';

export interface Trial {
  readonly kept: boolean;
  readonly findings: number;
  /** What the trial was, for a miss. */
  readonly story: string;
}

const BLANK = { value: 0, step: 0.01 };

/** @param count how many faults there are at once */
export async function trial(bench: Workbench, seed: number, count = 1): Promise<Trial> {
  const draw = random(seed);
  const pick = <T>(list: readonly T[]): T => pickOf(draw, list);
  // Steady: whether the complaint is there is a matter of its own.
  const hidden = drawFaults(bench.faults, count, draw).map((drawn) => ({ ...drawn, comesAndGoes: false }));
  const faults = hidden.map(({ fault }) => fault);
  const car = new SimulatedCar(bench, new SolverPhysics(), draw, hidden, draw() < 0.25);
  if (faults.some(canBlow) && draw() < 0.7) for (const setUp of drivenSetUps(bench)) await car.visit(setUp);
  const recorded: Recorded[] = [];
  const record = (event: Event) => void recorded.push({ number: recorded.length + 1, at: '', event });
  let setUp: SetUp = atRest(bench.circuit);
  const lines: string[] = [];
  const act = async (action: Extract<Event, { type: 'did' }>['action']) => {
    record({ type: 'did', action });
    setUp = edit(action, setUp);
    await car.act(action, setUp);
    lines.push(JSON.stringify(action));
  };
  const points = [...bench.network.points.keys()];
  const loads = [...bench.network.loads.keys()];
  const battery = draw() < 0.5;
  record({ type: 'proved', mode: 'volts' });
  record({ type: 'proved', mode: 'ohms' });
  record({ type: 'proved', mode: 'test lamp' });
  record({ type: 'proved', mode: 'amps' });
  for (let step = 0; step < 12; step++) {
    const roll = draw();
    const controls = [...bench.circuit.controls.values()];
    if (roll < 0.35 && controls.length > 0) {
      const control = pick(controls);
      await act({ do: 'operate', control: control.id, position: pick(control.positions) });
    } else if (roll < 0.42) {
      const connectors = [...bench.circuit.parts.values()].filter((part) => part.type === 'connector');
      if (connectors.length > 0) {
        const connector = pick(connectors).id;
        await act({ do: setUp.unplugged.has(connector) ? 'plug' : 'unplug', connector });
      }
    } else if (roll < 0.48) {
      const items = [...bench.circuit.parts.values()].filter(
        ({ type }) => type === 'fuse' || type === 'lamp' || type === 'switch' || type === 'relay',
      );
      if (items.length === 0) continue;
      const part = pick(items).id;
      await act({ do: setUp.out.has(part) ? 'refit' : 'take out', part });
    } else if (roll < 0.51 && setUp.jumpers.length === 0) {
      const contacts = [...bench.circuit.parts.values()].flatMap((part) =>
        part.type === 'switch'
          ? part.contacts.map(
              ({ between }) => [`${part.id}.${between[0]}`, `${part.id}.${between[1]}`] as const,
            )
          : [],
      );
      if (contacts.length > 0) await act({ do: 'jumper', between: pick(contacts) });
    } else if (roll < 0.53) await act({ do: 'engine', state: pick(['off', 'running'] as const) });
    const reading = question(draw, pick, points, loads);
    const answer = await car.answer(setUp, reading);
    if (answer === undefined) continue;
    const beside = battery && draw() < 0.5 && reading.kind !== 'ohms' ? { battery: answer.battery } : {};
    record({ type: 'found', reading: answer.reading, symptom: 'present', ...beside });
    lines.push(JSON.stringify({ ...answer.reading, ...beside }));
  }
  const verdict = judge(bench, faults, gather(bench, foldCase(bench.circuit, recorded)));
  const story = [
    `seed ${seed}: ${hidden.map(({ fault, severity }) => `${fault.id} at ${severity}`).join(' + ')}`,
    ...lines,
    verdict.fall === undefined
      ? ''
      : `fell by finding ${verdict.fall.observation.finding} (${verdict.fall.observation.kind}): predicted ${verdict.fall.low} to ${verdict.fall.high}, read ${verdict.fall.observation.low} to ${verdict.fall.observation.high}`,
  ].join('\n');
  return {
    kept: verdict.fall === undefined,
    findings: recorded.filter(({ event }) => event.type === 'found').length,
    story,
  };
}

function question(
  draw: () => number,
  pick: <T>(list: readonly T[]) => T,
  points: readonly string[],
  loads: readonly string[],
): Reading {
  const roll = draw();
  const black = draw() < 0.8 ? 'bat-' : pick(points);
  const red = pick(points.filter((point) => point !== black));
  if (roll < 0.4 && loads.length > 0) return { kind: 'load', load: pick(loads), value: 'off' };
  if (roll < 0.7) return { kind: 'volts', red, black, value: BLANK };
  if (roll < 0.8) return { kind: 'volts', red, black, value: BLANK, mode: 'loaded' };
  if (roll < 0.92) return { kind: 'ohms', red, black, value: BLANK };
  return {
    kind: 'test lamp',
    red,
    black: draw() < 0.7 ? 'bat-' : 'bat+',
    value: 'off',
    lamp: pick(['filament', 'LED'] as const),
  };
}
