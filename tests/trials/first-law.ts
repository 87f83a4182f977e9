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
import { Car, random } from './car.js';

export interface Trial {
  readonly kept: boolean;
  readonly findings: number;
  /** What the trial was, for a miss. */
  readonly story: string;
}

const BLANK = { value: 0, step: 0.01 };

export function trial(bench: Workbench, seed: number): Trial {
  const draw = random(seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(draw() * list.length)]!;
  const fault = pick(bench.faults);
  const car = new Car(bench, fault, draw, draw() < 0.25);
  const recorded: Recorded[] = [];
  const record = (event: Event) => void recorded.push({ number: recorded.length + 1, at: '', event });
  let setUp: SetUp = atRest(bench.circuit);
  const lines: string[] = [];
  const act = (action: Extract<Event, { type: 'did' }>['action']) => {
    record({ type: 'did', action });
    setUp = edit(action, setUp);
    car.visit(setUp);
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
    if (roll < 0.35) {
      const control = pick([...bench.circuit.controls.values()]);
      act({ do: 'operate', control: control.id, position: pick(control.positions) });
    } else if (roll < 0.42) {
      const connectors = [...bench.circuit.parts.values()].filter((part) => part.type === 'connector');
      if (connectors.length > 0) {
        const connector = pick(connectors).id;
        act({ do: setUp.unplugged.has(connector) ? 'plug' : 'unplug', connector });
      }
    } else if (roll < 0.48) {
      const part = pick(
        [...bench.circuit.parts.values()].filter(
          ({ type }) => type === 'fuse' || type === 'lamp' || type === 'switch' || type === 'relay',
        ),
      ).id;
      act({ do: setUp.out.has(part) ? 'refit' : 'take out', part });
    } else if (roll < 0.51 && setUp.jumpers.length === 0) {
      const contact = pick(
        [...bench.circuit.parts.values()].flatMap((part) =>
          part.type === 'switch'
            ? part.contacts.map(
                ({ between }) => [`${part.id}.${between[0]}`, `${part.id}.${between[1]}`] as const,
              )
            : [],
        ),
      );
      act({ do: 'jumper', between: contact });
    } else if (roll < 0.53) act({ do: 'engine', state: pick(['off', 'running'] as const) });
    const reading = question(draw, pick, points, loads);
    const answer = car.answer(setUp, reading);
    if (answer === undefined) continue;
    const posts =
      battery && draw() < 0.5
        ? car.answer(setUp, { kind: 'volts', red: 'bat+', black: 'bat-', value: BLANK })
        : undefined;
    // A battery read with another meter attached than the reading beside it: the posts hardly move.
    record({
      type: 'found',
      reading: answer,
      symptom: 'present',
      ...(posts?.kind === 'volts' && reading.kind !== 'ohms' ? { battery: posts.value } : {}),
    });
    lines.push(`${JSON.stringify(answer)}${posts?.kind === 'volts' ? ` / ${posts.value.value}` : ''}`);
  }
  const verdict = judge(bench, [fault], gather(bench, foldCase(bench.circuit, recorded)));
  const story = [
    `seed ${seed}: ${fault.id} at ${car.severity}`,
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
  if (roll < 0.4) return { kind: 'load', load: pick(loads), value: 'off' };
  if (roll < 0.8) return { kind: 'volts', red, black, value: BLANK };
  if (roll < 0.92) return { kind: 'ohms', red, black, value: BLANK };
  return {
    kind: 'test lamp',
    red,
    black: draw() < 0.7 ? 'bat-' : 'bat+',
    value: 'off',
    lamp: pick(['filament', 'LED'] as const),
  };
}
