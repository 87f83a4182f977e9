/**
 * Relays, fuses and module states of one vehicle, which remember: a relay keeps its state between drop-out and pull-in, a fuse
 * that blew stays open. Written from what the parts do and not from the solver's own search for states, so that a trial tests
 * that too.
 */
import { movedBy } from '../network/coil-bands.js';
import { coilConds } from '../network/cond.js';
import { BLOWS_FROM, fuseLoad, fusesOf, HOLDS_UP_TO, resetsOf, stillOpen } from '../network/fuse-rule.js';
import type { CoilCond, Network } from '../network/network.js';
import { amperes, inForce, ownVolts } from './element-current.js';
import type { Phase } from './phases.js';
import { meanOf, phasesOf } from './phases.js';
import type { Decided, Physics } from './physics.js';
import type { Draw } from './random.js';
import { around } from './random.js';

/** A relay lets go at 0.3 to 0.8 of the volts at which it pulls in (relay data sheets, from memory). */
const LETS_GO = { low: 0.3, high: 0.8 };
/** Of two overloaded fuses the slower one goes first at times. */
const FUSE_SCATTER = 0.25;
/** Part of the vehicles whose modules shut an output down where they may, and where the drawing does not tell why. */
const SHUTS_DOWN = { forWant: 0.5, untold: 0.1 };
/** Changes in a row after which nothing will settle any more. */
const MOST_CHANGES = 60;

export interface Settled {
  readonly phases: readonly Phase[];
  readonly pulledIn: number;
  readonly blown: number;
  /** The other states between which a relay chatters. */
  readonly chatter: readonly (readonly Phase[])[];
  /** Coils whose armature moves to and fro in that, as a mask. */
  readonly chattering: number;
  /** The same with flashers in their other state; empty where there is none. */
  readonly flash: readonly Phase[];
}

interface CoilPoints {
  readonly pullsIn: number;
  readonly dropsOut: number;
  readonly manner: CoilCond['manner'];
  /** A module that shuts down where it may. */
  readonly willing: boolean;
}

export class Switching {
  private readonly coils: readonly CoilPoints[];
  /** Contacts that each coil moves. */
  private readonly movedBy: readonly (readonly number[])[];
  private readonly fuseStands: readonly number[];

  constructor(
    private readonly network: Network,
    private readonly duties: ReadonlyMap<number, number>,
    private readonly draw: Draw,
  ) {
    this.coils = network.coils.map((coil) => coilPoints(network, coil, draw));
    this.movedBy = network.coils.map((coil) => movedBy(network, coil));
    this.fuseStands = network.fuses.map(() => HOLDS_UP_TO + (BLOWS_FROM - HOLDS_UP_TO) * draw());
  }

  /** From these relay and fuse states to the ones in which the vehicle comes to rest. */
  async settle(physics: Physics, from: Decided): Promise<Settled> {
    let { pulledIn, blown } = this.beginning(from);
    const seen = new Map<string, { readonly relays: number; readonly phases: readonly Phase[] }>();
    for (let change = 0; change < MOST_CHANGES; change++) {
      const now = { ...from, pulledIn, blown };
      const phases = await phasesOf(physics, now, this.duties);
      seen.set(`${blown} ${pulledIn}`, { relays: pulledIn, phases });
      const relays = this.moved(now, phases);
      const fuse = this.blowing(now, phases);
      const known = seen.has(`${blown} ${relays}`);
      if (relays !== pulledIn && !known) pulledIn = relays;
      else if (fuse !== 0) blown |= fuse;
      else {
        const open = stillOpen(this.network, { blown, pulledIn });
        const flash = await this.otherFlash(physics, now);
        const path = [...seen];
        const back = path.findIndex(([state]) => state === `${blown} ${relays}`);
        const cycle = relays === pulledIn ? [] : path.slice(back).map(([, state]) => state);
        const chattering = cycle.reduce((moving, state) => moving | (state.relays ^ pulledIn), 0);
        return {
          phases,
          pulledIn,
          blown: open,
          chatter: cycle.map((state) => state.phases),
          chattering,
          flash,
        };
      }
    }
    throw new Error('the simulated vehicle never comes to rest');
  }

  /** Fuses, breakers and electronic fuses of this part close. */
  closed(blown: number, part: string): number {
    return blown & ~fusesOf(this.network, part);
  }

  /** Breakers that cool may have closed, flashers are in either state, modules begin with their outputs as asked. */
  private beginning({ pulledIn, blown }: Decided): { pulledIn: number; blown: number } {
    this.network.fuses.forEach((fuse, i) => {
      if (resetsOf(this.network, fuse) === 'automatic' && this.draw() < 0.5) blown &= ~(1 << i);
    });
    this.coils.forEach(({ manner }, i) => {
      if (manner === 'under') pulledIn &= ~(1 << i);
      if (manner === 'alternating') pulledIn = this.draw() < 0.5 ? pulledIn | (1 << i) : pulledIn & ~(1 << i);
    });
    return { pulledIn, blown };
  }

  /** Coil states that these voltages leave. */
  private moved(now: Decided, phases: readonly Phase[]): number {
    let next = 0;
    const { present } = now.variant;
    this.network.coils.forEach((coil, i) => {
      // An alternator that stands still has lost its field.
      if (this.movedBy[i]!.every((contact) => present[contact] === 0)) return;
      const was = (now.pulledIn >>> i) & 1;
      const { pullsIn, dropsOut, manner, willing } = this.coils[i]!;
      const at = Math.abs(meanOf(phases, ({ decided, volts }) => ownVolts(decided, volts, coil)));
      let pulled: boolean;
      if (manner === 'alternating') pulled = was === 1;
      // Once shut down it stays so until the vehicle is worked on again.
      else if (manner === 'under') pulled = was === 1 || (willing && at < pullsIn);
      else pulled = was === 1 ? at > dropsOut : at >= pullsIn;
      if (pulled) next |= 1 << i;
    });
    return next;
  }

  /** The fuse that opens first under these voltages, as a mask; 0 when all hold. */
  private blowing(now: Decided, phases: readonly Phase[]): number {
    let first = 0;
    let most = 0;
    this.network.fuses.forEach((element, i) => {
      const { law } = inForce(now, element);
      if (law.kind !== 'fuse' || (now.blown >>> i) & 1) return;
      const amps = meanOf(phases, ({ decided, volts }) => amperes(decided, volts, element));
      const load = fuseLoad(law, amps);
      const haste = load * around(this.draw, FUSE_SCATTER);
      if (load > this.fuseStands[i]! && haste > most) [first, most] = [1 << i, haste];
    });
    return first;
  }

  private async otherFlash(physics: Physics, now: Decided): Promise<readonly Phase[]> {
    let mask = 0;
    this.coils.forEach(({ manner }, i) => {
      if (manner === 'alternating') mask |= 1 << i;
    });
    if (mask === 0) return [];
    return phasesOf(physics, { ...now, pulledIn: now.pulledIn ^ mask }, this.duties);
  }
}

function coilPoints(network: Network, coil: number, draw: Draw): CoilPoints {
  for (const { law } of network.elements) {
    if (law.kind !== 'contact') continue;
    const own = coilConds(law.closed).find((cond) => cond.coil === coil);
    if (own === undefined) continue;
    const { pullInVolts: surely, dropOutVolts: lowest, manner } = own;
    if (manner !== undefined) {
      const chance = surely === Infinity ? SHUTS_DOWN.untold : SHUTS_DOWN.forWant;
      return { pullsIn: surely, dropsOut: lowest, manner, willing: draw() < chance };
    }
    const least = Math.max(lowest, 0);
    const pullsIn = least + (surely - least) * (0.2 + 0.8 * draw());
    const share = LETS_GO.low + (LETS_GO.high - LETS_GO.low) * draw();
    // What never lets go by its volts, an excited alternator, holds until it stands still.
    const dropsOut = lowest === -Infinity ? lowest : Math.max(lowest, share * pullsIn);
    return { pullsIn, dropsOut, manner, willing: false };
  }
  return { pullsIn: Infinity, dropsOut: Infinity, manner: undefined, willing: false };
}
