/** Which fuse items of a vehicle are open: a fuse takes that with it when it is swapped, laid aside or put back. */
import type { Network } from '../network/network.js';
import { KNOWN_GOOD, type SetUp } from '../session/setup.js';

type Fitted = SetUp['fitted'];

export class FuseItems {
  private readonly open = new Set<string>();

  constructor(private readonly network: Network) {}

  /**
   * @param blown open fuses by position before the exchange, as a mask
   * @returns the same after it
   */
  exchanged(blown: number, before: Fitted, after: Fitted): number {
    const { network, open } = this;
    network.fuses.forEach((element, bit) => {
      const name = this.nameAt(element, before);
      if ((blown >>> bit) & 1) open.add(name);
      else open.delete(name);
    });
    return network.fuses.reduce((mask, element, bit) => {
      const name = this.nameAt(element, after);
      const { part } = network.elements[element]!;
      // Each time another one out of the box.
      if (after.get(part) === KNOWN_GOOD && before.get(part) !== KNOWN_GOOD) open.delete(name);
      return open.has(name) ? mask | (1 << bit) : mask;
    }, 0);
  }

  private nameAt(element: number, fitted: Fitted): string {
    const { part, site } = this.network.elements[element]!;
    const item = fitted.get(part) ?? part;
    return item === KNOWN_GOOD ? `${KNOWN_GOOD} at ${site}` : item + site.slice(part.length);
  }
}
