/**
 * Relays and fuses of one vehicle, which remember: a relay keeps its state between drop-out and pull-in, a fuse that blew stays
 * open. Written from what the parts do and not from the solver's own search for states, so that a trial tests that too.
 */
import { BLOWS_FROM, HOLDS_UP_TO } from '../network/fuse-rule.js';
import type { Network } from '../network/network.js';
import { amperes, ownVolts } from './element-current.js';
import type { Decided, Physics } from './physics.js';
import type { Draw } from './random.js';
import { around } from './random.js';

/** A relay lets go at 0.3 to 0.8 of the volts at which it pulls in (relay data sheets, from memory). */
const LETS_GO = { low: 0.3, high: 0.8 };
/** Of two overloaded fuses the slower one goes first at times. */
const FUSE_SCATTER = 0.25;
/** Changes in a row after which nothing will settle any more. */
const MOST_CHANGES = 40;

export interface Settled {
  readonly volts: Float64Array;
  readonly pulledIn: number;
  readonly blown: number;
  /** Voltages of the other states between which a relay chatters. */
  readonly chatter: readonly Float64Array[];
}

interface RelayPoints {
  readonly pullsIn: number;
  readonly dropsOut: number;
}

export class Switching {
  private readonly relays: readonly RelayPoints[];
  private readonly fuseStands: readonly number[];

  constructor(
    private readonly network: Network,
    private readonly draw: Draw,
  ) {
    this.relays = network.coils.map((coil) => relayPoints(network, coil, draw));
    this.fuseStands = network.fuses.map(() => HOLDS_UP_TO + (BLOWS_FROM - HOLDS_UP_TO) * draw());
  }

  /** From these relay and fuse states to the ones in which the vehicle comes to rest. */
  async settle(physics: Physics, from: Decided): Promise<Settled> {
    let { pulledIn, blown } = from;
    const seen = new Map<string, Float64Array>();
    for (let change = 0; change < MOST_CHANGES; change++) {
      const [volts] = await physics.volts([{ ...from, pulledIn, blown }]);
      seen.set(`${blown} ${pulledIn}`, volts!);
      const now = { ...from, pulledIn, blown };
      const relays = this.moved(now, volts!);
      const fuse = this.blowing(now, volts!);
      if (relays !== pulledIn && !seen.has(`${blown} ${relays}`)) pulledIn = relays;
      else if (fuse !== 0) blown |= fuse;
      else if (relays === pulledIn) return { volts: volts!, pulledIn, blown, chatter: [] };
      else return { volts: volts!, pulledIn, blown, chatter: [...seen.values()] };
    }
    throw new Error('the simulated vehicle never comes to rest');
  }

  /** Relay states that these voltages leave. */
  private moved(now: Decided, volts: Float64Array): number {
    let next = 0;
    this.network.coils.forEach((coil, i) => {
      const was = ((now.pulledIn >>> i) & 1) === 1;
      const at = Math.abs(ownVolts(now, volts, coil));
      const { pullsIn, dropsOut } = this.relays[i]!;
      if (was ? at > dropsOut : at >= pullsIn) next |= 1 << i;
    });
    return next;
  }

  /** The fuse that opens first under these voltages, as a mask; 0 when all hold. */
  private blowing(now: Decided, volts: Float64Array): number {
    let first = 0;
    let most = 0;
    this.network.fuses.forEach((element, i) => {
      const { law } = this.network.elements[element]!;
      if (law.kind !== 'fuse') return;
      const load = amperes(now, volts, element) / law.amps;
      const haste = load * around(this.draw, FUSE_SCATTER);
      if (load > this.fuseStands[i]! && haste > most) [first, most] = [1 << i, haste];
    });
    return first;
  }
}

function relayPoints(network: Network, coil: number, draw: Draw): RelayPoints {
  for (const { law } of network.elements) {
    if (law.kind !== 'contact' || law.closed.kind !== 'coil' || law.closed.coil !== coil) continue;
    const { pullInVolts: surely, dropOutVolts: lowest } = law.closed;
    const pullsIn = lowest + (surely - lowest) * (0.2 + 0.8 * draw());
    const share = LETS_GO.low + (LETS_GO.high - LETS_GO.low) * draw();
    return { pullsIn, dropsOut: Math.max(lowest, share * pullsIn) };
  }
  return { pullsIn: Infinity, dropsOut: Infinity };
}
