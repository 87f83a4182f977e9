/** A fitted severity in words: how much, how sure, where, and what it takes away. Calculated, never measured. */
import type { FaultInfo, FittedSeverity, Suspect } from '../diagnosis/diagnosis-types.js';

/** From here on an added resistance is an open circuit, as in the diagnosis. */
const OPEN_OHMS = 1e7;

/** Fewer volts than a person would read as a drop. */
const LEAST_VOLTS = 0.01;

/** Below this added resistance nothing can be told from a good contact: the readings set no lower limit. */
const LEAST_OHMS = 0.0011;

/** "4.1 ohm, 3.6 to 4.9", "open circuit (at least 210 ohm)"; undefined when the readings set no limit at all. */
export function severityWords({ unit, value, low, high }: FittedSeverity): string | undefined {
  if (unit !== 'ohm') return spread(figure(value), down(low), up(high), unit);
  if (low <= LEAST_OHMS && high >= OPEN_OHMS / 10) return undefined;
  if (low >= OPEN_OHMS) return 'open circuit';
  if (value >= OPEN_OHMS)
    return low <= LEAST_OHMS ? 'open circuit' : `open circuit (at least ${ohms(low, down)})`;
  // Between a few ohms and an open circuit no single value stands out.
  if (high >= OPEN_OHMS) return `${ohms(low, down)} to an open circuit`;
  if (low <= LEAST_OHMS) return `at most ${ohms(high, up)}`;
  const { scale, unit: large } = scaleOf(value);
  if (scaleOf(low).scale !== scale || scaleOf(high).scale !== scale)
    return `${ohms(value)}, ${ohms(low, down)} to ${ohms(high, up)}`;
  return spread(figure(value / scale), down(low / scale), up(high / scale), large);
}

/** "it takes 1.9 V with pedal down"; undefined where nothing is known of it or it takes nothing to speak of. */
export function stealWords({ steals }: FittedSeverity): string | undefined {
  if (steals === undefined || steals.volts < LEAST_VOLTS) return undefined;
  return `it takes ${figure(steals.volts)} V ${steals.condition}`.trimEnd();
}

/** For each fault of a suspect with a known severity: "4.1 ohm, 3.6 to 4.9, at ground point GP5; it takes 1.9 V with pedal down". */
export function suspectSeverities(
  { faults, severities }: Pick<Suspect, 'faults' | 'severities'>,
  place: 'with place' | 'without place',
): readonly string[] {
  return faults.flatMap((fault, index) => {
    const fitted = severities[index];
    const words = fitted === undefined ? undefined : severityWords(fitted);
    if (fitted === undefined || words === undefined) return [];
    const steals = stealWords(fitted);
    const named = place === 'with place' || faults.length > 1;
    const at = named ? `${words.startsWith('open') ? '' : ','} at ${siteWords(fault)}` : '';
    return [`${words}${at}${steals === undefined ? '' : `; ${steals}`}`];
  });
}

/** "ground point GP5 (left tail ground)" out of "high resistance or open: ground point GP5 (left tail ground)". */
export function siteWords({ label, site }: FaultInfo): string {
  return /^[a-z, ]+: (.+)$/.exec(label)?.[1] ?? site;
}

function spread(value: string, low: string, high: string, unit: string): string {
  return low === high ? `${value} ${unit}` : `${value} ${unit}, ${low} to ${high}`;
}

function scaleOf(value: number): { readonly scale: number; readonly unit: string } {
  if (value >= 1e6) return { scale: 1e6, unit: 'Mohm' };
  return value >= 1000 ? { scale: 1000, unit: 'kohm' } : { scale: 1, unit: 'ohm' };
}

function ohms(value: number, round: (value: number) => string = figure): string {
  const { scale, unit } = scaleOf(value);
  return `${round(value / scale)} ${unit}`;
}

/** Two digits: more would pretend to be measured. */
function figure(value: number): string {
  return String(Number(value.toPrecision(2)));
}

/** Ends of a range are rounded outwards: a rounded range must not lose what fits. */
function down(value: number): string {
  return outward(value, Math.floor);
}

function up(value: number): string {
  return outward(value, Math.ceil);
}

function outward(value: number, round: (value: number) => number): string {
  if (value === 0 || !Number.isFinite(value)) return String(value);
  const unit = 10 ** (Math.floor(Math.log10(Math.abs(value))) - 1);
  return String(Number((round(Number((value / unit).toPrecision(12))) * unit).toPrecision(2)));
}

/** "2 to 5.1 ohm", "20 ohm to open", "open": the range alone, as a session written by hand expects it. */
export function rangeWords({
  unit,
  low,
  high,
}: Pick<FittedSeverity, 'low' | 'high'> & { readonly unit: string }): string {
  if (unit !== 'ohm') return `${down(low)} to ${up(high)} ${unit}`;
  if (low >= OPEN_OHMS) return 'open';
  const [scale, name] = low > 0 && low < 0.1 && high < 1 ? [1e-3, 'mohm'] : [1, 'ohm'];
  return high >= OPEN_OHMS
    ? `${down(low / scale)} ${name} to open`
    : `${down(low / scale)} to ${up(high / scale)} ${name}`;
}
