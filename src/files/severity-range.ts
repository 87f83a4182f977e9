/** Severities that a session expects, as a person writes them: `2 to 5 ohm`, `20 ohm to open`, `open`, `4.6 to 5.4 W`. */

export interface SeverityRange {
  readonly low: number;
  readonly high: number;
  readonly unit: 'ohm' | 'V' | 'W' | 'A';
}

/** As in the diagnosis: from here on added ohms are an open circuit. */
const OPEN_OHMS = 1e7;

const UNITS: Readonly<Record<string, readonly [SeverityRange['unit'], number]>> = {
  ohm: ['ohm', 1],
  kohm: ['ohm', 1e3],
  mohm: ['ohm', 1e-3],
  v: ['V', 1],
  w: ['W', 1],
  a: ['A', 1],
};

/** Undefined when it is no such range. The unit may stand once, behind the last number. */
export function severityRange(text: string): SeverityRange | undefined {
  const plain = text.trim().toLowerCase();
  if (plain === 'open') return { low: OPEN_OHMS, high: Infinity, unit: 'ohm' };
  const found = /^([\d.]+) *([a-z]*)(?: +to +(?:(open)|([\d.]+) *([a-z]+)))?$/.exec(plain);
  if (found === null) return undefined;
  const [, first, firstUnit, open, second, secondUnit] = found;
  const [unit, worth] = UNITS[firstUnit || secondUnit || ''] ?? [undefined, 1];
  const [highUnit, highWorth] = second === undefined ? [unit, worth] : (UNITS[secondUnit!] ?? [undefined, 1]);
  const low = Number(first) * worth;
  const high = open !== undefined ? Infinity : Number(second ?? first) * highWorth;
  if (unit === undefined || highUnit !== unit || Number.isNaN(low + high) || high < low) return undefined;
  if (open !== undefined && unit !== 'ohm') return undefined;
  return { low, high, unit };
}
