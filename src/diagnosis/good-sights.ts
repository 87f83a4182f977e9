/** Whether what a load was seen to do is what it should do: a stop lamp is lit, a turn signal flashes. */
import { sourceElement, sourceLaw } from '../network/conditions.js';
import { mayFlash } from '../network/phases.js';
import type { Finding } from '../session/case.js';
import type { Sight } from '../session/events.js';
import type { SetUp } from '../session/setup.js';
import { attachedBy } from './attached.js';
import { sightBand, WORDS } from './sights.js';
import type { Workbench } from './workbench.js';

/** The best word for its kind, or that it flashes where a good vehicle has it flash. */
export function isGoodSight(
  bench: Workbench,
  { reading, setUp }: Pick<Finding, 'reading' | 'setUp'>,
): boolean {
  if (reading.kind !== 'load') return false;
  const { kind } = bench.network.loads.get(reading.load)!;
  if (reading.value === WORDS[kind][0]) return true;
  return reading.value === 'flashes' && flashesIn(bench, setUp).has(reading.load);
}

/** Words to choose from: of an armature also that it rattles, of a lamp also that it flashes where a good one does. */
export function answersFor(bench: Workbench, load: string, setUp: SetUp): readonly Sight[] {
  const { kind } = bench.network.loads.get(load)!;
  if (kind === 'relay' || kind === 'solenoid') return ['clicks', 'chatters', 'silent'];
  return flashesIn(bench, setUp).has(load) ? ['flashes', ...WORDS[kind]] : WORDS[kind];
}

const known = new WeakMap<Workbench, Map<string, ReadonlySet<string>>>();

/** Loads that a good vehicle has flash in this set-up. */
function flashesIn(bench: Workbench, setUp: SetUp): ReadonlySet<string> {
  const { network, circuit } = bench;
  const added = attachedBy(bench, setUp);
  const solver = bench.solver(added);
  if (solver.flashers === 0) return new Set();
  const present = bench.presence(setUp);
  const key = `${present.join('')} ${setUp.engine} ${JSON.stringify(added)}`;
  let all = known.get(bench);
  if (all === undefined) known.set(bench, (all = new Map()));
  let flashing = all.get(key);
  if (flashing === undefined) {
    const law = sourceLaw(network, circuit.nominalVolts, setUp.engine);
    const battery = { kind: 'law', element: sourceElement(network), law } as const;
    const outcomes = solver.solve({ present, faults: [battery], blown: 0 });
    flashing = new Set(
      [...network.loads].flatMap(([id, { element, kind, ratedVolts }]) => {
        const { a, b } = network.elements[element]!;
        const { low } = sightBand(kind, 'flashes');
        const flashes = outcomes.some((outcome) =>
          mayFlash(outcome, a, b, low * ratedVolts, low * ratedVolts),
        );
        return flashes ? [id] : [];
      }),
    );
    all.set(key, flashing);
  }
  return flashing;
}
