import { describe, expect, test } from 'vitest';
import { fusesOf, stillOpen } from '../../src/network/fuse-rule.js';
import { ohmmeter, OHMMETER_VOLTS, ohmmeterReads } from '../../src/network/meters.js';
import { each, partCircuit, type PartCircuit, type SetUp } from './part-circuit.js';

/** A module with one input from a switch to ground and one output to a lamp of 21 W; `output` and `more` are keys of them. */
function lampModule(output: string, more = ''): PartCircuit {
  return partCircuit(
    `A1: {type: module, supply: 30, ground: 31, inputs: {2: {pull: up, ohms: 1 kohm, reads: {high: released, low: pressed}}}, outputs: {7: {${output}}}${more}}
     S1: {type: switch, control: button, contacts: [{between: [1, 2], closed: [in]}]}
     H1: {type: lamp, watts: 21 W}`,
    [
      'SP1 to A1.30',
      'A1.31 to GP1',
      'A1.2 to S1.1',
      'S1.2 to GP1',
      ...(output.includes('side: high')
        ? ['A1.7 to H1.1', 'H1.31 to GP1']
        : ['SP1 to H1.1', 'H1.31 to A1.7']),
    ],
    'button: [out, in]',
  );
}

const pressed = { controls: { button: 'in' } } as const;
const share = (bench: PartCircuit) => (outcome: ReturnType<PartCircuit['only']>) =>
  bench.volts(outcome, 'H1.1', 'H1.31') / 12;

describe('an output that follows an input', () => {
  test.each(['high', 'low'])(
    'when it is on the %s side then the lamp is lit while the button is pressed',
    (side) => {
      const bench = lampModule(`side: ${side}, on: {2: low}`);
      expect(Math.abs(share(bench)(bench.only()))).toBeLessThan(0.01);
      expect(share(bench)(bench.only(pressed))).toBeGreaterThan(0.95);
    },
  );

  test('when the wire of the button has ohms that leave the input between its thresholds then both are possible', () => {
    const bench = lampModule('side: high, on: {2: low}');
    const setUp = { ...pressed, faults: [bench.series('S1:1-2', 250)] };
    expect(bench.volts(bench.outcomes(setUp)[0]!, 'A1.2')).toBeGreaterThan(1.5);
    expect(bench.volts(bench.outcomes(setUp)[0]!, 'A1.2')).toBeLessThan(3.5);
    const found = each(bench.outcomes(setUp), share(bench));
    expect(found).toHaveLength(2);
    expect(found[0]).toBeLessThan(0.01);
    expect(found[1]).toBeGreaterThan(0.95);
  });

  test.each(['A1.30', 'A1.31'])('when contact %s is open then it does nothing', (site) => {
    const bench = lampModule('side: high, on: {2: low}');
    const setUp = { ...pressed, faults: [bench.series(site, Infinity)] };
    for (const outcome of bench.outcomes(setUp)) expect(share(bench)(outcome)).toBeLessThan(0.05);
  });

  test('when it is asked what its input reads then the volts of the input and its supply tell', () => {
    const { network } = lampModule('side: high, on: {2: low}');
    const scan = network.scans!.get('A1.2')!;
    expect(scan.reads).toEqual({ high: 'released', low: 'pressed' });
    expect(network.elements[scan.element]!.site).toBe('A1:2 input');
    expect(network.coils).toContain(scan.supply);
  });
});

describe('what a file leaves unsaid', () => {
  test('when it does not say when an output is on then on and off are both possible', () => {
    const bench = lampModule('side: high');
    const found = each(bench.outcomes(), share(bench));
    expect(found).toHaveLength(2);
    expect(found[0]).toBeLessThan(0.01);
    expect(found[1]).toBeGreaterThan(0.95);
    expect(bench.outcomes().some(({ chatters }) => chatters)).toBe(false);
  });

  test('when the module has no supply then even that output is off, and there is one outcome', () => {
    const bench = lampModule('side: high');
    expect(share(bench)(bench.only({ faults: [bench.series('A1.30', Infinity)] }))).toBeLessThan(0.01);
  });
});

describe('an electronic fuse', () => {
  const bench = lampModule('side: high, on: {2: low}, limit: 8 A');
  const short: SetUp = {
    ...pressed,
    faults: [{ kind: 'shunt', node: bench.network.points.get('A1.7')!, ohms: 0.05 }],
  };

  test('when its output is shorted then it opens and nothing else does', () => {
    const outcome = bench.only(short);
    expect(outcome.blown).toBe(fusesOf(bench.network, 'A1'));
    expect(bench.volts(outcome, 'bat+')).toBeGreaterThan(12);
  });

  test('when it opened then it stays open while the module has its supply, and no longer', () => {
    const { network } = bench;
    const blown = fusesOf(network, 'A1');
    const latched = bench.only({ ...pressed, blown });
    expect(share(bench)(latched)).toBeLessThan(0.01);
    expect(stillOpen(network, latched)).toBe(blown);
    const dead = bench.only({ blown, faults: [bench.series('A1.30', Infinity)] });
    expect(stillOpen(network, dead)).toBe(0);
  });

  test('when the lamp is one of half the limit then it holds', () => {
    expect(bench.only(pressed).blown).toBe(0);
  });
});

describe('a shut-down for want of load', () => {
  const bench = lampModule('side: high, on: {2: low}, open-load: 0.1 A');

  test('when the load is there then the output is on and nothing else', () => {
    expect(share(bench)(bench.only(pressed))).toBeGreaterThan(0.95);
  });

  test('when the load is taken out then its terminal may have full volts or none', () => {
    const outcomes = bench.outcomes({ ...pressed, out: ['H1'] });
    const found = each(outcomes, (outcome) => bench.volts(outcome, 'A1.7'));
    expect(found).toHaveLength(2);
    expect(found[0]).toBeLessThan(0.1);
    expect(found[1]).toBeGreaterThan(12);
  });
});

describe('outputs that look for their load', () => {
  test('when a pull-up does and the load is out then the idle terminal has volts, with the load none', () => {
    const bench = lampModule('side: high, on: {2: low}, pull-up: 10 kohm');
    expect(bench.volts(bench.only({ out: ['H1'] }), 'A1.7')).toBeGreaterThan(12);
    expect(bench.volts(bench.only(), 'A1.7')).toBeLessThan(0.01);
  });

  test('when test pulses do then a meter shows next to nothing and the lamp sees full volts for moments', () => {
    const bench = lampModule('side: high, on: {2: low}, test pulses: true');
    const outcome = bench.only();
    expect(bench.volts(outcome, 'A1.7')).toBeLessThan(0.4);
    expect(bench.volts(outcome, 'A1.7')).toBeGreaterThan(0);
    const { phases } = outcome;
    const node = bench.network.points.get('A1.7')!;
    expect(phases!.on[node]).toBeGreaterThan(12);
    expect(Math.abs(phases!.off[node]!)).toBeLessThan(0.01);
  });
});

describe('sleep and own draw', () => {
  const bench = lampModule('side: high, on: {2: low}', ', sleep: 15 min, awake: 0.3 A, asleep: 3 mA');
  const draw = (rested: number) => bench.amps(bench.only({ rested }), 'G1:emf', { rested });

  test('when it has rested for less than its time then it draws what it does awake, or down to asleep', () => {
    expect(draw(5)).toBeGreaterThan(0.25);
    const { law } = bench.network.elements[bench.element('A1:electronics')]!;
    if (law.kind !== 'contact') throw new Error('a contact');
    expect(12 / law.high).toBeLessThan(0.003);
  });

  test('when it has rested long enough then it draws what it does asleep', () => {
    expect(draw(20)).toBeLessThan(0.02);
    expect(draw(20)).toBeGreaterThan(0.001);
  });

  test('when it never sleeps then no tolerance lets it draw next to nothing', () => {
    const awake = lampModule('side: high, on: {2: low}', ', sleep: never, awake: 0.3 A');
    expect(awake.amps(awake.only({ rested: 60 }), 'G1:emf', { rested: 60 })).toBeGreaterThan(0.25);
    const { law } = awake.network.elements[awake.element('A1:electronics')]!;
    if (law.kind !== 'ohms') throw new Error('a resistance');
    expect(12 / law.high).toBeCloseTo(0.12, 3);
    expect(12 / law.low).toBeCloseTo(0.48, 3);
  });
});

describe('sensors on the 5 V reference', () => {
  const bench = partCircuit(
    `A1: {type: module, supply: 30, ground: 31, reference: 5, inputs: {3: {pull: reference, ohms: 2 kohm, reads: volts}}}
     B1: {type: thermistor, control: coolant, ohms: {cold: 2000 ohm, hot: 200 ohm}}
     R1: {type: resistor, ohms: 10 kohm}`,
    ['SP1 to A1.30', 'A1.31 to GP1', 'A1.3 to B1.1', 'B1.2 to GP1', 'A1.5 to R1.1', 'R1.2 to GP1'],
    'coolant: [cold, hot]',
  );

  test('when the thermistor has the ohms of the pull resistor then the input has half of 5 V, hot a tenth of it', () => {
    expect(bench.volts(bench.only(), 'A1.5')).toBeCloseTo(5, 1);
    expect(bench.volts(bench.only(), 'A1.3')).toBeCloseTo(2.5, 1);
    expect(bench.volts(bench.only({ controls: { coolant: 'hot' } }), 'A1.3')).toBeCloseTo(5 / 11, 1);
  });

  test('when its wire is open then the input has all of it', () => {
    const setUp = { faults: [bench.series('B1.2', Infinity)] };
    expect(bench.volts(bench.only(setUp), 'A1.3')).toBeCloseTo(5, 1);
  });

  test('when the module is dead then there is no reference', () => {
    expect(bench.volts(bench.only({ faults: [bench.series('A1.30', Infinity)] }), 'A1.5')).toBeLessThan(0.1);
  });
});

describe('a data pair', () => {
  const bench = partCircuit(
    `A1: {type: module, supply: 30, ground: 31, can: {high: H, low: L, terminator: 120 ohm}}
     A2: {type: module, supply: 30, ground: 31, can: {high: H, low: L, terminator: 120 ohm}}`,
    ['SP1 to A1.30', 'A1.31 to GP1', 'SP1 to A2.30', 'A2.31 to GP1', 'A1.H to A2.H', 'A1.L to A2.L'],
  );
  const between = (setUp: SetUp) => {
    const [a, b] = ['A1.L', 'A1.H'].map((point) => bench.network.points.get(point)!) as [number, number];
    const added = [{ a, b, law: ohmmeter(OHMMETER_VOLTS) }];
    const outcome = bench.only({ out: ['G1'], added, ...setUp });
    return ohmmeterReads(bench.volts(outcome, 'A1.H', 'A1.L'));
  };

  // ISO 11898-2: 120 ohm at each end, so 60 ohm between the wires (from tutorials); one lost: 120 ohm.
  test('when the supply is off then two terminators make 60 ohm, one with its wire open 120 ohm', () => {
    expect(between({})).toBeCloseTo(60, 0);
    expect(between({ faults: [bench.series('A2.H', Infinity)] })).toBeGreaterThan(115);
    expect(between({ faults: [bench.series('A2.H', Infinity)] })).toBeLessThan(121);
  });

  // Meters on a live bus read about 2.6 to 2.8 V and 2.2 to 2.4 V (common practice, from memory).
  test('when it is alive then a meter shows a little more and a little less than 2.5 V', () => {
    const outcome = bench.only();
    expect(bench.volts(outcome, 'A1.H')).toBeGreaterThan(2.5);
    expect(bench.volts(outcome, 'A1.H')).toBeLessThan(2.9);
    expect(bench.volts(outcome, 'A1.L')).toBeGreaterThan(2.1);
    expect(bench.volts(outcome, 'A1.L')).toBeLessThan(2.5);
  });

  test('when one wire is shorted to ground then the other follows it down', () => {
    const short = { kind: 'shunt', node: bench.network.points.get('A1.L')!, ohms: 0.01 } as const;
    const outcome = bench.only({ faults: [short] });
    expect(bench.volts(outcome, 'A1.L')).toBeLessThan(0.1);
    expect(bench.volts(outcome, 'A1.H')).toBeLessThan(2.2);
  });
});
