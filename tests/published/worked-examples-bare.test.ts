/**
 * Worked examples whose volts are beyond a circuit file, or whose milliohms are no larger than its contacts: on the solver
 * directly. Values looked up in the source beside each unless a line says otherwise. Where a tolerance is given, it is the
 * solver's leakage of 100 GΩ a node.
 */
import { describe, expect, it } from 'vitest';
import { solveBare, type Branch } from './bare-network.js';
import { near } from './near.js';

const EXACT = 0.001;

// US Army subcourse OD1633, Basic Electronics, figs. 58 and 59; the same circuit is in US Navy NEETS module 1, ch. 3.
// R1, R2, total resistance and current are stated; 120 V and R3 = 25 Ω are inferred from them.
describe('120 V, 20 ohm before 100 and 25 ohm in parallel, US Army OD1633', () => {
  const circuit: Branch[] = [
    { name: 'source', a: 0, b: 2, emf: 120, inside: 0 },
    { name: 'R1', a: 2, b: 3, ohms: 20 },
    { name: 'R2', a: 3, b: 0, ohms: 100 },
    { name: 'R3', a: 3, b: 0, ohms: 25 },
  ];

  it('when nothing is wrong then 3 A flow into 40 ohm', () => {
    near(solveBare(circuit).amps('R1'), 3, EXACT);
    near(120 / solveBare(circuit).amps('R1'), 40, EXACT);
  });

  it('when the series part is open then nothing flows', () => {
    expect(solveBare(circuit, { R1: { open: true } }).amps('R1')).toBeLessThan(1e-8);
  });

  it('when R3 is open then 1 A flows into 120 ohm', () => {
    const reads = solveBare(circuit, { R3: { open: true } });
    near(reads.amps('R1'), 1, EXACT);
    near(reads.volts('R1'), 20, EXACT);
    near(reads.volts('R3'), 100, EXACT);
  });

  it('when R1 is shorted then 6 A flow, all through the parallel part', () => {
    const reads = solveBare(circuit, { R1: { ohms: 0 } });
    near(reads.amps('R1'), 6, EXACT);
    near(reads.amps('R2') + reads.amps('R3'), 6, EXACT);
  });

  it('when R3 is shorted then 6 A flow and R2 is robbed of its current', () => {
    const reads = solveBare(circuit, { R3: { ohms: 0 } });
    near(reads.amps('R1'), 6, EXACT);
    expect(reads.amps('R2')).toBeLessThan(1e-6);
  });
});

/** A battery of these volts and ohms on a load, with a joint between. */
const starter = (emf: number, inside: number, load: number, joint = 1e-6): Branch[] => [
  { name: 'battery', a: 0, b: 2, emf, inside },
  { name: 'joint', a: 2, b: 3, ohms: joint },
  { name: 'motor', a: 3, b: 0, ohms: load },
];

// OpenStax, College Physics, ch. 21, problem: 12.0 V, 0.0100 Ω inside, starter motor of 0.0500 Ω.
describe('starter motor, OpenStax College Physics ch. 21', () => {
  it('when the connections are good then 200 A flow, 10.0 V and 2.00 kW are at the motor', () => {
    const reads = solveBare(starter(12, 0.01, 0.05));
    near(reads.amps('motor'), 200, 0.01);
    near(reads.volts('motor'), 10, 0.01);
    near(reads.volts('motor') * reads.amps('motor'), 2000, 0.01);
  });

  // The answer prints 0.1000 Ω for the internal and corrosion ohms together; the loop has 0.1500 Ω.
  it('when corroded connections add 0.0900 ohm then 80 A flow, 4.0 V and 320 W are left', () => {
    const reads = solveBare(starter(12, 0.01, 0.05), { joint: { ohms: 0.09 } });
    near(reads.amps('motor'), 80, EXACT);
    near(reads.volts('motor'), 4, EXACT);
    near(reads.volts('motor') * reads.amps('motor'), 320, EXACT);
  });
});

// OpenStax, College Physics, ch. 21, example on terminal voltage, load of 0.500 Ω.
describe('a battery whose internal resistance has risen, OpenStax College Physics ch. 21', () => {
  it('when it has 0.100 ohm inside then 20.0 A, 10.0 V and 200 W are at the load', () => {
    const reads = solveBare(starter(12, 0.1, 0.5));
    near(reads.amps('motor'), 20, EXACT);
    near(reads.volts('motor'), 10, EXACT);
  });

  it('when it has 0.500 ohm inside then 12.0 A, 6.00 V and 72.0 W are left', () => {
    const reads = solveBare(starter(12, 0.5, 0.5));
    near(reads.amps('motor'), 12, EXACT);
    near(reads.volts('motor'), 6, EXACT);
    near(reads.volts('motor') * reads.amps('motor'), 72, EXACT);
  });
});

// A battery-trade training booklet: 200 A of starter current through a bad joint. The circuits that give 200 A are demo data.
describe('bad joint in a starter cable, battery-trade training booklet', () => {
  it.each([
    { joint: 0.01, lost: 2 },
    { joint: 0.02, lost: 4 },
  ])('when 200 A go through a joint of $joint ohm then $lost V are lost', ({ joint, lost }) => {
    const reads = solveBare(starter(12, 0, 12 / 200 - joint, joint));
    near(reads.amps('joint'), 200, 0.01);
    near(reads.volts('joint'), lost, 0.01);
  });
});

// Kuphaldt, Lessons in Electric Circuits, Vol. I, ch. 8, "Voltmeter impact on measured circuit": 24 V, 250 MΩ twice, 10 MΩ meter.
// Leakage of 100 GΩ is no longer nothing beside 250 MΩ: 0.2 % allowed.
describe('meter of 10 Mohm on 250 Mohm, Lessons in Electric Circuits I ch. 8', () => {
  const circuit: Branch[] = [
    { name: 'source', a: 0, b: 2, emf: 24, inside: 0 },
    { name: 'upper', a: 2, b: 3, ohms: 250e6 },
    { name: 'lower', a: 3, b: 0, ohms: 250e6 },
  ];

  it('when no meter is attached then the lower one has 12 V', () => {
    near(solveBare(circuit).volts('lower'), 12, 0.2);
  });

  it('when the meter is on the lower one then it shows 0.8889 V and the upper one has 23.1111 V', () => {
    const reads = solveBare([...circuit, { name: 'meter', a: 3, b: 0, ohms: 10e6 }]);
    near(reads.volts('meter'), 0.8889, 0.2);
    near(reads.volts('upper'), 23.1111, 0.2);
  });
});

// Lessons in Electric Circuits I, ch. 12, "Specific resistance": 230 V over two runs of 2300 ft of No. 14 copper,
// 10.09 Ω·cmil/ft and 4107 cmil.
describe('undersized wire, Lessons in Electric Circuits I ch. 12', () => {
  it('when the load has no ohms at all then still only 20.352 A flow', () => {
    const run = (10.09 * 2300) / 4107;
    near(run, 5.651, 0.01);
    const reads = solveBare([
      { name: 'source', a: 0, b: 2, emf: 230, inside: 0 },
      { name: 'out', a: 2, b: 3, ohms: run },
      { name: 'load', a: 3, b: 4, ohms: 0 },
      { name: 'back', a: 4, b: 0, ohms: run },
    ]);
    near(reads.amps('load'), 20.352, 0.01);
  });
});

// OpenStax, College Physics, ch. 21, problem: a 12.0 V battery shows 15.0 V while 8.00 A charge it; 0.375 Ω inside.
// The charger's volts and ohms are demo data that give 8 A.
describe('battery under charge, OpenStax College Physics ch. 21', () => {
  it('when 0.375 ohm are inside and 8 A charge it then its posts show 15.0 V', () => {
    const reads = solveBare([
      { name: 'battery', a: 0, b: 2, emf: 12, inside: 0.375 },
      { name: 'charger', a: 0, b: 3, emf: 16, inside: 0.0625 },
      { name: 'lead', a: 3, b: 2, ohms: 0.0625 },
    ]);
    near(reads.amps('lead'), 8, EXACT);
    near(reads.volts('battery'), -15, EXACT);
  });
});
