/** How the circuit stands with its controls in these positions, every part good: which contacts are closed, volts at each point. */
import type { PointId } from '../../circuit/circuit.js';
import { nominalVolts } from '../../diagnosis/readings.js';
import type { Workbench } from '../../diagnosis/workbench.js';
import type { AppliedFault } from '../../network/solver-types.js';
import type { SetUp } from '../../session/setup.js';
import type { Case } from '../../session/case.js';
import { formatTyped } from '../../session/format-typed.js';
import { linksOf } from '../../circuit/links.js';

export interface Standing {
  /** By link; left out = no contact, or the positions were not asked for. */
  readonly closed: ReadonlyMap<number, boolean>;
  /** Against battery −, calculated; empty = not asked for. */
  readonly volts: ReadonlyMap<PointId, readonly number[]>;
  /** Last measured against battery −, with the number of the finding: "12.4 V #5". */
  readonly read: ReadonlyMap<PointId, string>;
  /** Controls that are not at rest: "pedal down". */
  readonly when: readonly string[];
}

export const NO_STANDING: Standing = {
  closed: new Map(),
  volts: new Map(),
  read: new Map(),
  when: [],
};

export function standingOf(
  bench: Workbench,
  setUp: SetUp,
  {
    volts = false,
    faults = [],
    timeline = [],
  }: {
    /** Work out the volts at every point. */
    readonly volts?: boolean;
    readonly faults?: readonly AppliedFault[];
    /** Of a session, for what was read in it. */
    readonly timeline?: Case['timeline'];
  } = {},
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
    read: readIn(timeline),
    when: [...circuit.controls.values()].flatMap(({ id, positions }) => {
      const now = setUp.controls.get(id)!;
      return now === positions[0] ? [] : [`${id} ${now}`];
    }),
  };
}

/** The latest reading of each point, whatever its set-up: the record tells that by its number. */
function readIn(timeline: Case['timeline']): Map<PointId, string> {
  const read = new Map<PointId, string>();
  for (const step of timeline) {
    if (step.kind !== 'finding' || step.finding.reading.kind !== 'volts') continue;
    const { red, black, value } = step.finding.reading;
    if (black === 'bat-') read.set(red, `${formatTyped(value, 'volts')} #${step.finding.number}`);
  }
  return read;
}

/** "read 12.4 V #5; 12.53 V": what was measured at a point, then what was worked out; empty = neither. */
export function figuresAt({ read, volts }: Standing, point: PointId): string {
  const measured = read.get(point);
  const worked = volts.get(point)?.map((value) => value.toFixed(2).replace('-0.00', '0.00'));
  return [
    ...(measured === undefined ? [] : [`read ${measured}`]),
    ...(worked === undefined ? [] : [`${worked.join(' or ')} V`]),
  ].join('; ');
}
