/** How the circuit stands with its controls in these positions, every part good: which contacts are closed, volts at each point. */
import type { PointId } from '../../circuit/circuit.js';
import { nominalVolts } from '../../diagnosis/readings.js';
import type { Workbench } from '../../diagnosis/workbench.js';
import type { AppliedFault } from '../../network/solver-types.js';
import type { SetUp } from '../../session/setup.js';
import { linksOf } from '../../circuit/links.js';

export interface Standing {
  /** By link; left out = no contact, or the positions were not asked for. */
  readonly closed: ReadonlyMap<number, boolean>;
  /** Against battery −, calculated; empty = not asked for. */
  readonly volts: ReadonlyMap<PointId, readonly number[]>;
  /** Controls that are not at rest: "pedal down". */
  readonly when: readonly string[];
}

export const NO_STANDING: Standing = { closed: new Map(), volts: new Map(), when: [] };

export function standingOf(
  bench: Workbench,
  setUp: SetUp,
  { volts = false, faults = [] }: { volts?: boolean; faults?: readonly AppliedFault[] } = {},
): Standing {
  const { circuit, network } = bench;
  const outcome = bench.solver([]).solve({ present: bench.presence(setUp), faults, blown: 0 })[0]!;
  const closed = new Map<number, boolean>();
  for (const { index, kind, control, closed: positions, owner } of linksOf(circuit)) {
    if (kind !== 'contact') continue;
    if (!control.startsWith('relay:')) {
      closed.set(index, positions.includes(setUp.controls.get(control) ?? ''));
      continue;
    }
    const coil = network.coils.indexOf(network.sites.get(`${owner}:coil`) ?? -1);
    const pulled = coil >= 0 && ((outcome.pulledIn >>> coil) & 1) === 1;
    closed.set(index, pulled === (positions[0] === 'on'));
  }
  const points = volts ? [...network.points.keys()].filter((point) => !point.endsWith('i')) : [];
  return {
    closed,
    volts: new Map(points.map((point) => [point, nominalVolts(bench, setUp, point, 'bat-', faults)])),
    when: [...circuit.controls.values()].flatMap(({ id, positions }) => {
      const now = setUp.controls.get(id)!;
      return now === positions[0] ? [] : [`${id} ${now}`];
    }),
  };
}
