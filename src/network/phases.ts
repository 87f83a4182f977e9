/** What an eye makes of volts that come and go. A DC meter shows their mean; a lamp does not. */
import type { LoadKind } from './network.js';
import type { Outcome } from './solver-types.js';

/** A filament follows the heat, so the root of the mean of the squares; by how much less or more than that it may seem to have. */
const SEEMS = { low: 0.9, high: 1.2 };

/**
 * Volts V(a) − V(b) by which a load may be judged in this outcome: of a flashing one those of its bright moments, of one that is
 * switched too fast to see anything between the mean and what the eye makes of it (an LED seems as bright as in its on-time, and a
 * filament never as dim as at the mean).
 */
export function seenVolts(
  { volts, phases }: Outcome,
  a: number,
  b: number,
  kind: LoadKind,
): { readonly low: number; readonly high: number } {
  const across = (of: Float64Array) => of[a]! - of[b]!;
  const mean = across(volts);
  if (phases === undefined) return { low: mean, high: mean };
  const on = across(phases.on);
  if (phases.slow) {
    const off = across(phases.off);
    const bright = Math.abs(on) >= Math.abs(off) ? on : off;
    return { low: bright, high: bright };
  }
  const effective = Math.sqrt(
    phases.steps.reduce((all, step) => all + step.share * across(step.volts) ** 2, 0),
  );
  const most = Math.min(SEEMS.high * effective, Math.max(Math.abs(on), Math.abs(mean)));
  const seen = kind === 'LED' ? on : Math.sign(mean) * Math.max(most, Math.abs(mean));
  const least = kind === 'lamp' ? Math.sign(mean) * Math.max(SEEMS.low * effective, Math.abs(mean)) : mean;
  return { low: Math.min(least, seen), high: Math.max(least, seen) };
}

/** Does the load go on and off for the eye: from at least `lit` volts to at most `dark` volts, both magnitudes? */
export function mayFlash({ phases }: Outcome, a: number, b: number, lit: number, dark: number): boolean {
  if (!phases?.slow) return false;
  const [one, other] = [phases.on, phases.off].map((volts) => Math.abs(volts[a]! - volts[b]!)) as [
    number,
    number,
  ];
  return Math.max(one, other) >= lit && Math.min(one, other) <= dark;
}

/** Outcomes of one variant without those that are the dark moment of another one. @param flashers mask of coils, see `Solver.flashers` */
export function brightOf(outcomes: readonly Outcome[], flashers: number): readonly Outcome[] {
  if (flashers === 0) return outcomes;
  return outcomes.filter(({ pulledIn, blown }) => {
    const lit = pulledIn | flashers;
    return lit === pulledIn || !outcomes.some((one) => one.pulledIn === lit && one.blown === blown);
  });
}

/** The two moments between which a flasher goes on and off, as an outcome each; one that does not flash is its only moment. */
export function momentsOf(outcome: Outcome, flashers: number): readonly Outcome[] {
  const { phases, pulledIn } = outcome;
  if (phases?.slow !== true) return [outcome];
  return [
    { ...outcome, volts: phases.on, pulledIn: pulledIn | flashers },
    { ...outcome, volts: phases.off, pulledIn: pulledIn & ~flashers },
  ];
}
