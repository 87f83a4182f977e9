/** Advice: a fuse that is smaller than the loads that can run together on it. */
import { calledOf } from './circuit.js';
import { pointer, type Ranges } from './diagnostic.js';
import type { Mistakes } from './mistakes.js';
import type { Branch, Nets } from './nets.js';
import { reach } from './ways.js';

/** Above this many steps only "everything closed at once" is looked at, which can only advise too often. */
const MOST_WORK = 3e6;

/** Compares each fuse with the largest current its loads draw in any combination of control positions and relay states. */
export function adviseFuses(
  nets: Nets,
  positions: ReadonlyMap<string, readonly string[]>,
  ranges: Ranges,
  mistakes: Mistakes,
): void {
  const fuses = nets.branches.filter((branch) => branch.kind === 'fuse');
  const worst = new Map<Branch, { amps: number; loads: readonly Branch[] }>();
  for (const state of statesOf(nets, positions, fuses.length)) {
    const live = nets.branches.filter(
      (branch) =>
        branch.kind === 'fuse' ||
        branch.kind === 'passive' ||
        (branch.kind === 'contact' &&
          (state === undefined || branch.closed.includes(state.get(branch.control) ?? ''))),
    );
    const grounded = reach(nets.count, live, nets.minus);
    const fed = reach(nets.count, live, nets.plus);
    for (const fuse of fuses) {
      const rated = ratingOf(fuse);
      if (rated === undefined) continue;
      const without = reach(
        nets.count,
        live.filter((branch) => branch !== fuse),
        nets.plus,
      );
      const behind = (net: number) => fed[net] === 1 && without[net] === 0;
      const loads = nets.branches.filter(
        (branch) =>
          branch.kind === 'load' &&
          ((behind(branch.a) && grounded[branch.b] === 1) || (behind(branch.b) && grounded[branch.a] === 1)),
      );
      const amps = loads.reduce((sum, load) => sum + load.amps, 0);
      if (amps > (worst.get(fuse)?.amps ?? rated)) worst.set(fuse, { amps, loads });
    }
  }
  for (const [fuse, { amps, loads }] of worst) {
    const names = [...new Set(loads.filter((load) => load.amps > 0).map((load) => load.part.id))];
    mistakes.advice(
      'small-fuse',
      ranges.value(pointer('parts', fuse.part.id, 'rating')),
      `${calledOf(fuse.part)} is ${ratingOf(fuse)!} A, but its loads can draw ${amps.toFixed(1)} A together: ${names.slice(0, 8).join(', ')}${names.length > 8 ? ' …' : ''}`,
      'check the rating and the watts; a larger fuse also needs a thicker wire',
    );
  }
}

function ratingOf({ part }: Branch): number | undefined {
  return part.type === 'fuse' || part.type === 'fusible link' || part.type === 'breaker'
    ? part.amps
    : undefined;
}

/** Every combination of positions of the controls (and relay states) that have contacts; `[undefined]` = all closed. */
function statesOf(
  nets: Nets,
  positions: ReadonlyMap<string, readonly string[]>,
  fuses: number,
): (ReadonlyMap<string, string> | undefined)[] {
  const controls = [
    ...new Set(nets.branches.filter((one) => one.kind === 'contact').map((one) => one.control)),
  ];
  let states: Map<string, string>[] = [new Map()];
  for (const control of controls) {
    const choices = control.startsWith('relay:') ? ['off', 'on'] : (positions.get(control) ?? []);
    states = states.flatMap((state) => choices.map((choice) => new Map([...state, [control, choice]])));
    if (states.length * (fuses + 2) * (nets.branches.length + nets.count) > MOST_WORK) return [undefined];
  }
  return states;
}
