/** What each fault mode does to a small circuit, where the trade knows what it does; common practice, no source. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Fault } from '../../../src/diagnosis/faults.js';
import { createWorkbench, type Workbench } from '../../../src/diagnosis/workbench.js';
import { readCircuit } from '../../../src/files/circuit-file.js';
import { atRest, type SetUp } from '../../../src/session/setup.js';

async function benchOf(name: string): Promise<Workbench> {
  const loaded = await readCircuit(`tests/oracle/circuits/${name}.yaml`);
  if ('problems' in loaded) throw new Error(loaded.problems[0]!.message);
  return createWorkbench(loaded.circuit);
}

let lighting: Workbench;
let loads: Workbench;
let resistances: Workbench;
beforeAll(async () => {
  lighting = await benchOf('lighting');
  loads = await benchOf('loads');
  resistances = await benchOf('resistances');
});

function faultOf(bench: Workbench, id: string): Fault {
  const fault = bench.faults.find((one) => one.id === id);
  if (fault === undefined) throw new Error(`no fault ${id}`);
  return fault;
}

function standing({ circuit }: Workbench, controls: Record<string, string>): SetUp {
  return {
    ...atRest(circuit),
    controls: new Map([...atRest(circuit).controls, ...Object.entries(controls)]),
  };
}

/** Volts over rated volts and amperes of a load, no fuse blown. */
function watched(
  bench: Workbench,
  controls: Record<string, string>,
  load: string,
  fault?: Fault,
  severity = 0,
): { share: number; amps: number } {
  const solver = bench.solver([]);
  const applied = fault === undefined ? [] : [fault.apply(severity)];
  const variant = { present: bench.presence(standing(bench, controls)), faults: applied, blown: 0 };
  const outcome = solver.solve({ ...variant, forcedRelays: 0 })[0]!;
  const { element, ratedVolts } = bench.network.loads.get(load)!;
  const { a, b } = bench.network.elements[element]!;
  const law = applied[0]?.kind === 'law' && applied[0].element === element ? applied[0].law : undefined;
  const rated = law?.kind === 'curve' ? law.volts : ratedVolts;
  return {
    share: Math.abs(outcome.volts[a]! - outcome.volts[b]!) / rated,
    amps: Math.abs(solver.current(outcome, variant, element)),
  };
}

describe('motors', () => {
  const on = { key: 'on' };
  const healthy = () => watched(loads, on, 'M1');

  test('when a motor is seized, then it draws several times its current and does not turn', () => {
    const { share, amps } = watched(loads, on, 'M1', faultOf(loads, 'M1:winding seized'));
    expect(amps / healthy().amps).toBeGreaterThan(3);
    expect(share).toBeLessThan(0.01);
  });

  test('when a motor drags harder and harder, then it draws more and turns slower', () => {
    const fault = faultOf(loads, 'M1:winding dragging');
    const seen = [healthy(), ...fault.scale.edges.map((amps) => watched(loads, on, 'M1', fault, amps))];
    for (let i = 1; i < seen.length; i++) {
      expect(seen[i]!.amps).toBeGreaterThan(seen[i - 1]!.amps);
      expect(seen[i]!.share).toBeLessThan(seen[i - 1]!.share);
    }
    expect(seen.at(-1)!.share).toBeLessThan(0.6);
    const seized = watched(loads, on, 'M1', faultOf(loads, 'M1:winding seized'));
    expect(seen.at(-1)!.amps).toBeLessThan(seized.amps);
  });

  test('when a solenoid sticks, then it has its current and does not move', () => {
    const { share, amps } = watched(loads, on, 'Y1', faultOf(loads, 'Y1:coil seized'));
    expect(amps).toBeCloseTo(watched(loads, on, 'Y1').amps, 2);
    expect(share).toBeLessThan(0.01);
  });
});

describe('lamps', () => {
  const tail = { lights: 'tail' };

  test('when a single-filament lamp sits in a double holder, then the tail feed lights its one filament', () => {
    const fault = faultOf(lighting, 'H1:58 lead wrong single filament');
    expect(watched(lighting, tail, 'H1.54').share).toBeLessThan(0.01);
    expect(watched(lighting, tail, 'H1.54', fault).share).toBeGreaterThan(0.9);
    expect(watched(lighting, tail, 'H1.58', fault).amps).toBeLessThan(1e-6);
  });

  test('when the filaments touch, then the tail feed lights both', () => {
    const fault = faultOf(lighting, 'H1:58 lead touching 54');
    for (const load of ['H1.54', 'H1.58'])
      expect(watched(lighting, tail, load, fault, 0.01).share).toBeGreaterThan(0.9);
  });

  test('when an LED lamp is fitted the wrong way round, then it stays dark', () => {
    const fault = faultOf(lighting, 'H3:LED lead reversed');
    expect(watched(lighting, tail, 'H3').share).toBeGreaterThan(0.9);
    expect(watched(lighting, tail, 'H3', fault).share).toBeLessThan(0.05);
  });
});

describe('looms', () => {
  test('when the wires of a loom touch, then one feed lights the other lamp too', () => {
    const fault = lighting.faults.find(({ kind, owner }) => kind === 'touching' && owner === 'wire')!;
    expect(watched(lighting, { lights: 'stop' }, 'H1.58').share).toBeLessThan(0.1);
    expect(watched(lighting, { lights: 'stop' }, 'H1.58', fault, 0.001).share).toBeGreaterThan(0.9);
  });

  test('when two pins are in each other’s place, then the brake lights the tail filament', () => {
    const fault = faultOf(lighting, 'X1.1 crossed X1.2');
    expect(watched(lighting, { lights: 'stop' }, 'H1.54', fault).share).toBeLessThan(0.1);
    expect(watched(lighting, { lights: 'stop' }, 'H1.58', fault).share).toBeGreaterThan(0.9);
  });

  test('when a load of 60 W is tapped into a wire, then some 5 A more flow', () => {
    const fault = lighting.faults.find(({ kind }) => kind === 'tapped')!;
    expect(fault.apply(60)).toMatchObject({ kind: 'shunt', ohms: 2.4 });
  });

  test('when wires and pins are listed, then only nets that something keeps apart can touch, each pair once a loom', () => {
    const pairs = lighting.faults.filter(({ kind }) => kind === 'touching').map(({ id }) => id);
    // Wires 4 and 5/6 of the rear loom (54 and 58); pins 1 and 2; pin 3 is ground, where touching is a short to body.
    expect(pairs).toEqual(['H1:58 lead touching 54', 'W4 touching W6', 'X1.1 touching X1.2']);
  });
});

describe('diodes and resistances', () => {
  const at = (bench: Workbench, fault: Fault | undefined, severity: number, point: string, controls = {}) => {
    const variant = {
      present: bench.presence(standing(bench, controls)),
      faults: fault === undefined ? [] : [fault.apply(severity)],
      blown: 0,
    };
    return bench.solver([]).solve(variant)[0]!.volts[bench.network.points.get(point)!]!;
  };

  test('when a diode is the wrong way round, then nothing passes', () => {
    expect(at(resistances, undefined, 0, 'D1.K')).toBeGreaterThan(11);
    expect(at(resistances, faultOf(resistances, 'D1:junction reversed'), 0, 'D1.K')).toBeLessThan(0.1);
  });

  test('when a sender has too few ohms in one position, then it has in all', () => {
    const fault = faultOf(resistances, 'B1:track lead drifted');
    for (const tank of ['full', 'half', 'empty'])
      expect(at(resistances, fault, 1, 'B1.1', { tank })).toBeLessThan(
        at(resistances, undefined, 0, 'B1.1', { tank }),
      );
  });
});

test('when the faults of every small circuit are listed, then each has an id of its own, odds and a repair', async () => {
  for (const name of [
    'lighting',
    'loads',
    'switching',
    'resistances',
    'charging',
    'electronics',
    'trailer-frame',
  ]) {
    const { faults } = await benchOf(name);
    expect(new Set(faults.map(({ id }) => id)).size).toBe(faults.length);
    expect(
      faults.filter(({ weight, repair, label }) => !(weight > 0) || repair.how === '' || label === ''),
    ).toEqual([]);
    for (const { scale } of faults) {
      const { edges } = scale;
      expect(edges.every((edge, i) => i === 0 || edge > edges[i - 1]! || scale.unit === 'none')).toBe(true);
    }
  }
});
