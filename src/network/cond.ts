/** What the condition of a contact asks of the set-up, and which coils have a say in it. */
import type { CoilCond, Cond, SingleCond } from './network.js';

/** The part of a set-up that contacts feel. */
export interface Surroundings {
  readonly controls: ReadonlyMap<string, string>;
  readonly engine: 'off' | 'running';
  /** Minutes the vehicle has been left alone. */
  readonly rested?: number;
}

export function singleConds(cond: Cond): readonly SingleCond[] {
  return cond.kind === 'all' ? cond.of : [cond];
}

export function coilConds(cond: Cond): readonly CoilCond[] {
  return singleConds(cond).filter((one) => one.kind === 'coil');
}

/** Does the set-up let the contact close? What its coils say is left open. */
export function permits(cond: Cond, { controls, engine, rested = 0 }: Surroundings): boolean {
  return singleConds(cond).every((one) => {
    switch (one.kind) {
      case 'coil':
        return true;
      case 'control': {
        const position = controls.get(one.control);
        return position !== undefined && one.positions.has(position);
      }
      case 'engine':
        return engine === one.state;
      case 'rested':
        return rested < one.minutes === (one.state === 'before');
    }
  });
}
