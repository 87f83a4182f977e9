/** The small circuits of tests/oracle/circuits, ready to be read. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Circuit } from '../../src/circuit/circuit.js';
import type { Fault } from '../../src/diagnosis/faults.js';
import { createWorkbench, type Workbench } from '../../src/diagnosis/workbench.js';
import { readCircuit } from '../../src/files/circuit-file.js';
import { sourceElement, sourceLaw } from '../../src/network/conditions.js';
import type { AppliedFault } from '../../src/network/solver-types.js';
import { atRest, type SetUp } from '../../src/session/setup.js';

const FOLDER = join(import.meta.dirname, 'circuits');

export async function tableBenches(): Promise<Workbench[]> {
  const benches: Workbench[] = [];
  for (const file of readdirSync(FOLDER).sort()) {
    const loaded = await readCircuit(join(FOLDER, file));
    if ('problems' in loaded) throw new Error(`${file} is refused: ${loaded.problems[0]!.message}`);
    benches.push(createWorkbench(loaded.circuit));
  }
  return benches;
}

/** Every product of control positions, engine off; where there is an alternator also running; where there are modules also asleep. */
export function setUps(circuit: Circuit): SetUp[] {
  let all: SetUp[] = [atRest(circuit)];
  for (const { id, positions } of circuit.controls.values()) {
    all = all.flatMap((setUp) =>
      positions.map((position) => ({ ...setUp, controls: new Map(setUp.controls).set(id, position) })),
    );
  }
  const types = new Set([...circuit.parts.values()].map(({ type }) => type));
  if (types.has('alternator'))
    all = all.flatMap((setUp) => [setUp, { ...setUp, engine: 'running' as const }]);
  if (types.has('module')) all = all.flatMap((setUp) => [setUp, { ...setUp, rested: 60 }]);
  return all;
}

/** A set-up in words, for a reading that differs. */
export function setUpWords({ controls, engine, rested }: SetUp): string {
  return [
    ...[...controls].map((pair) => pair.join(' ')),
    ...(engine === 'running' ? ['running'] : []),
    `${rested} min`,
  ].join(', ');
}

/** The fault at the mildest, middle and worst severity of its scale. */
export function severities({
  scale,
  id,
  apply,
}: Fault): { readonly words: string; readonly applied: AppliedFault }[] {
  const { edges, unit } = scale;
  return [...new Set([edges[0]!, edges[edges.length >> 1]!, edges.at(-1)!])].map((severity) => ({
    words: unit === 'none' ? id : `${id} ${severity.toPrecision(3)} ${unit}`,
    applied: apply(severity),
  }));
}

/** The battery in this set-up, then the faults; a fault of the battery comes last and so prevails. */
export function faultsIn(bench: Workbench, setUp: SetUp, faults: readonly AppliedFault[]): AppliedFault[] {
  const element = sourceElement(bench.network);
  const law = sourceLaw(bench.network, bench.circuit.nominalVolts, setUp.engine);
  return [{ kind: 'law', element, law }, ...faults];
}
