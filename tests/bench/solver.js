/**
 * The network solver: time per nonlinear variant (one more series resistance at one site, filaments settled anew) beside
 * ngspice as WebAssembly, on the same variants in one run. ngspice runs one netlist with an alter/op loop, its quickest way
 * here, and prints one node a variant. Agreement is checked; nothing is asserted about times.
 */
import { Simulation } from 'eecircuit-engine';
import { Solver } from '../../dist/network/solver.js';
import { demoLoom } from './loom.js';

const SPICE_VARIANTS = 300;
const SEVERITIES = [0.001, 0.01, 0.1, 1, 10, 100, 1e3, 1e4, 1e5];
const METER_OHMS = 1e7;

/** @param {(line: string) => void} print */
export async function solverBench(print = console.log) {
  const network = demoLoom();
  const { elements, nodeNames } = network;
  const curves = elements.filter(({ law }) => law.kind === 'curve');
  const probe = curves[0].a;
  const faults = elements
    .filter(({ law }) => law.kind === 'ohms' || law.kind === 'fuse')
    .flatMap(({ index }) => SEVERITIES.map((ohms) => ({ kind: 'series', element: index, ohms })));
  print(`Network solve: ${nodeNames.length} nodes, ${elements.length} elements, ${curves.length} filaments`);

  const meter = { kind: 'ohms', ohms: METER_OHMS, low: METER_OHMS, high: METER_OHMS };
  const solver = new Solver(network, [{ a: probe, b: 1, law: meter }]);
  const present = new Uint8Array(elements.length).fill(1);
  let start;
  const sweep = () =>
    faults.map((fault) => {
      [start] = solver.solve({ present, faults: [fault], blown: 0, forcedRelays: 0, start });
      return start.volts[probe];
    });
  const rounds = [];
  let volts = [];
  for (let round = 0; round < 9; round++) {
    const began = performance.now();
    volts = sweep();
    rounds.push(((performance.now() - began) * 1000) / faults.length);
  }
  const here = Math.min(...rounds);
  print(
    `  here: ${here.toFixed(1)} us a variant (best of ${rounds.length} rounds of ${faults.length}; the first, cold, ${rounds[0].toFixed(1)})`,
  );

  const simulation = new Simulation();
  await simulation.start();
  const step = Math.ceil(faults.length / SPICE_VARIANTS);
  const chosen = faults.map((_, i) => i).filter((i) => i % step === 0);
  const netlist = spiceNetlist(
    network,
    probe,
    chosen.map((i) => faults[i]),
  );
  let best = Infinity;
  let worst = 0;
  for (let round = 0; round < 3; round++) {
    simulation.setNetList(netlist);
    const began = performance.now();
    await simulation.runSim();
    best = Math.min(best, ((performance.now() - began) * 1000) / chosen.length);
    const found = [...simulation.getInfo().matchAll(/^v\(n\d+\) = (\S+)$/gm)].map(([, value]) =>
      Number(value),
    );
    if (found.length !== chosen.length)
      throw new Error(`ngspice solved ${found.length} of ${chosen.length} variants`);
    chosen.forEach((i, k) => (worst = Math.max(worst, Math.abs(found[k] - volts[i]))));
  }
  if (worst > 1e-3) throw new Error(`The two differ by up to ${worst} V`);
  print(
    `  ngspice (WebAssembly, alter/op loop): ${best.toFixed(0)} us a variant (best of 3 rounds of ${chosen.length})`,
  );
  print(`  ngspice / here: ${(best / here).toFixed(0)}; largest difference ${worst.toExponential(1)} V`);
}

function spiceNetlist({ elements, nodeNames }, probe, faults) {
  const node = (index) => (index === 0 ? '0' : `n${index}`);
  const lines = ['demo loom'];
  for (const { index, a, b, law } of elements) {
    const [from, to] = [node(a), node(b)];
    if (law.kind === 'source') {
      lines.push(`ve${index} s${index} ${from} ${law.volts}`, `re${index} s${index} ${to} ${law.ohms}`);
    } else if (law.kind === 'curve') {
      const volts = `v(${from},${to})`;
      const knee = law.knee * law.volts;
      const cold = (law.cold * law.volts) / law.amps;
      const rise = (knee / (law.amps * law.knee ** law.exponent) - cold) / knee;
      const hot = `sgn(${volts})*${law.amps}*pow(max(abs(${volts}),${knee / 2})/${law.volts},${law.exponent})`;
      lines.push(
        `be${index} ${from} ${to} I = abs(${volts}) > ${knee} ? ${hot} : ${volts}/(${cold}+${rise}*abs(${volts}))`,
      );
    } else lines.push(`re${index} ${from} ${to} ${law.ohms}`);
  }
  nodeNames.forEach((_, index) => index !== 1 && lines.push(`rl${index} ${node(index)} n1 1e11`));
  lines.push(`rmeter ${node(probe)} n1 ${METER_OHMS}`, '.op', '.control', 'set numdgt=10');
  for (const { element, ohms } of faults) {
    const own = elements[element].law.ohms;
    lines.push(`alter re${element} = ${own + ohms}`, 'op', `print v(${node(probe)})`, 'destroy all');
    lines.push(`alter re${element} = ${own}`);
  }
  return [...lines, '.endc', '.end'].join('\n');
}
