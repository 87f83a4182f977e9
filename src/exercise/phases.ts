/** A vehicle in which contacts go on and off: too fast for eye and meter (a duty), or slowly (a flasher). */
import { isClosed } from './element-current.js';
import type { Decided, Physics } from './physics.js';

export interface Phase {
  /** Part of the time. */
  readonly share: number;
  readonly volts: Float64Array;
  readonly decided: Decided;
}

/** The phases of one period in turn; one alone where no contact with a duty is closed. */
export async function phasesOf(
  physics: Physics,
  decided: Decided,
  duties: ReadonlyMap<number, number>,
): Promise<readonly Phase[]> {
  const stuck = new Set(
    decided.variant.faults.flatMap((fault) => (fault.kind === 'stuck' ? [fault.element] : [])),
  );
  const pulsing = [...duties].filter(([contact]) => !stuck.has(contact) && isClosed(decided, contact));
  const moments = [...new Set([0, ...pulsing.map(([, part]) => part), 1])].sort((a, b) => a - b);
  const steps = moments.slice(1).map((until, i) => {
    const from = moments[i]!;
    const present = decided.variant.present.slice();
    for (const [contact, part] of pulsing) if (part <= from) present[contact] = 0;
    return { share: until - from, decided: { ...decided, variant: { ...decided.variant, present } } };
  });
  const solved = await physics.volts(steps.map((step) => step.decided));
  return steps.map((step, i) => ({ ...step, volts: solved[i]! }));
}

/** Mean of a quantity over the phases: what a DC meter shows. */
export function meanOf(phases: readonly Phase[], quantity: (phase: Phase) => number): number {
  return phases.reduce((sum, phase) => sum + phase.share * quantity(phase), 0);
}

/** Of what flashes the moment that counts for an eye: the brighter one. */
export function brightest(
  { phases, flash }: { readonly phases: readonly Phase[]; readonly flash: readonly Phase[] },
  quantity: (phase: Phase) => number,
): number {
  const now = effectiveOf(phases, quantity);
  const other = flash.length === 0 ? 0 : effectiveOf(flash, quantity);
  return Math.abs(other) > Math.abs(now) ? other : now;
}

/** What a lamp makes of it: the heat goes with the square of the volts. Signed like the mean. */
export function effectiveOf(phases: readonly Phase[], quantity: (phase: Phase) => number): number {
  const squares = meanOf(phases, (phase) => quantity(phase) ** 2);
  return Math.sign(meanOf(phases, quantity)) * Math.sqrt(squares);
}
