/**
 * Only faults that say they can draw more than a fuse stands are followed through blown fuses. One that blows a fuse without
 * saying so would be ruled out by true readings.
 */
import { readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { canBlow } from '../../../src/diagnosis/faults.js';
import type { Workbench } from '../../../src/diagnosis/workbench.js';
import type { AppliedFault } from '../../../src/network/solver-types.js';
import { atRest, type SetUp } from '../../../src/session/setup.js';
import { workbenchOf } from '../session-of.js';

const CIRCUITS = readdirSync(new URL('../../../circuits/', import.meta.url)).map((file) =>
  file.replace('.yaml', ''),
);

function positions({ circuit }: Workbench): SetUp[] {
  let all: SetUp[] = [atRest(circuit)];
  for (const { id, positions: of } of circuit.controls.values())
    all = all.flatMap((setUp) =>
      of.map((one) => ({ ...setUp, controls: new Map(setUp.controls).set(id, one) })),
    );
  return all;
}

/** Every fuse that may be open in some outcome. */
function mayBlow(bench: Workbench, setUp: SetUp, faults: readonly AppliedFault[]): number {
  const outcomes = bench.solver([]).solve({ present: bench.presence(setUp), faults, blown: 0 });
  return outcomes.reduce((mask, { blown }) => mask | blown, 0);
}

test.each(CIRCUITS)('when a fault of %s says that it draws no more, then it blows no fuse', async (name) => {
  const bench = await workbenchOf(name);
  const silent = bench.faults.filter((fault) => !canBlow(fault));
  expect(silent.length).toBeGreaterThan(20);
  for (const setUp of positions(bench)) {
    const healthy = mayBlow(bench, setUp, []);
    const blown = silent.flatMap(({ id, scale, apply }) =>
      [scale.edges[0]!, scale.edges.at(-1)!]
        .filter((severity) => (mayBlow(bench, setUp, [apply(severity)]) & ~healthy) !== 0)
        .map((severity) => `${id} ${severity}: ${[...setUp.controls].join(' ')}`),
    );
    expect(blown).toEqual([]);
  }
});
