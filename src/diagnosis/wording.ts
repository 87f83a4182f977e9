/** Predictions as a person would say them. */
import { ohmmeterReads } from '../network/meters.js';
import type { Observation } from './observe.js';
import { figure } from './figures.js';
import { WORDS } from './sights.js';
import type { Workbench } from './workbench.js';

/** Shares of rated volts this far apart look alike. */
const ALIKE = 0.05;

/** A predicted range as the meter or eye would give it: "11.2 to 12.6 V", "OL", "lit". */
export function showRange(
  bench: Workbench,
  observation: Pick<Observation, 'kind' | 'quantity'>,
  low: number,
  high: number,
): string {
  if (low === -Infinity && high === Infinity) return 'anything (the line is live)';
  switch (observation.kind) {
    case 'ohms':
    case 'continuity':
      return range(ohmmeterReads(low), ohmmeterReads(high), 'ohm');
    case 'load':
    case 'test lamp':
    case 'fuse lamp':
      return words(bench, observation, low, high);
    case 'contrast':
      return low > -ALIKE ? 'both alike' : 'the other way round, or both alike';
    case 'amps':
    case 'clamp':
      return range(low, high, 'A');
    case 'answer':
      return `${range(low, high, 'V')} at its supply`;
    default:
      return range(low, high, 'V');
  }
}

/** Shares of rated volts at which a predicted load is called dull, and bright: the middle of the overlaps of what people say. */
const DULL = 0.3;
const BRIGHT = 0.58;

/** The words that fit a range of rated volts: "lit", "off or dim". */
function words(
  bench: Workbench,
  observation: Pick<Observation, 'kind' | 'quantity'>,
  low: number,
  high: number,
): string {
  const load = [...bench.network.loads.values()].find(({ element }) => element === observation.quantity.load);
  const kind = load?.kind ?? 'lamp';
  const [good, dull, dead] =
    WORDS[kind].length === 3 ? WORDS[kind] : [WORDS[kind][0], undefined, WORDS[kind][1]];
  const fitting = [low < DULL && dead, low < BRIGHT && high >= DULL && dull, high >= BRIGHT && good];
  return fitting.filter(Boolean).join(' or ');
}

function range(low: number, high: number, unit: string): string {
  const [from, to] = [figure(low), figure(high)];
  if (unit === 'ohm' && low > 1e6) return 'OL';
  if (from === to) return `${from} ${unit}`;
  if (high === Infinity || (unit === 'ohm' && high > 1e7)) return `over ${from} ${unit}`;
  return `${from} to ${to} ${unit}`;
}
