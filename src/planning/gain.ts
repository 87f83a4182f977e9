/** How much a test is expected to tell, in bits about which repair is needed. */
import { MOST_CLASSES } from './outcome-classes.js';

/** Where the reading of each version may fall on the axis of classes: from[i] to to[i]. */
export interface Spans {
  readonly from: Float64Array;
  readonly to: Float64Array;
  /** Versions that may read either way whatever was read before, 1 for each: no reading speaks for or against them. Left out: none. */
  readonly unsure?: Uint8Array;
}

/** A version's part in a repair group. */
export interface Stake {
  readonly version: number;
  readonly group: number;
  readonly weight: number;
}

/** Sums up outcome weights per class and repair group; its tables are used again for every test. */
export class GainMeter {
  private readonly table: Float64Array;
  private readonly perClass = new Float64Array(MOST_CLASSES);
  private readonly groupFrom: Float64Array;
  private readonly groupTo: Float64Array;
  /** Weight per repair group of the versions that are unsure. */
  private readonly open: Float64Array;
  private readonly before: number;
  private readonly total: number;

  constructor(
    private readonly stakes: readonly Stake[],
    private readonly groupCount: number,
  ) {
    this.table = new Float64Array(MOST_CLASSES * groupCount);
    this.groupFrom = new Float64Array(groupCount);
    this.groupTo = new Float64Array(groupCount);
    this.open = new Float64Array(groupCount);
    const perGroup = new Float64Array(groupCount);
    for (const { group, weight } of stakes) perGroup[group]! += weight;
    this.total = perGroup.reduce((sum, weight) => sum + weight, 0);
    this.before = entropy(perGroup, 0, groupCount, this.total);
  }

  /** The most any test could tell. */
  get most(): number {
    return this.before;
  }

  gain({ from, to, unsure }: Spans): number {
    const { table, perClass, stakes, groupCount, open } = this;
    let last = 0;
    let sure = this.total;
    for (let i = 0; i < stakes.length; i++) {
      const { version, group, weight } = stakes[i]!;
      if (unsure?.[version] === 1) {
        open[group]! += weight;
        sure -= weight;
        continue;
      }
      const [low, high] = [from[version]!, to[version]!];
      const density = weight / (high - low);
      const end = Math.min(MOST_CLASSES, Math.ceil(high));
      for (let at = Math.floor(low); at < end; at++) {
        const part = density * (Math.min(high, at + 1) - Math.max(low, at));
        table[at * groupCount + group]! += part;
        perClass[at]! += part;
      }
      if (end > last) last = end;
    }
    let after = 0;
    for (let at = 0; at < last; at++) {
      const weight = perClass[at]!;
      if (weight === 0) continue;
      const start = at * groupCount;
      const whole = (weight * this.total) / sure;
      if (whole !== weight)
        for (let g = 0; g < groupCount; g++) table[start + g]! += (open[g]! * weight) / sure;
      after += (weight / sure) * entropy(table, start, start + groupCount, whole);
      table.fill(0, start, start + groupCount);
      perClass[at] = 0;
    }
    open.fill(0);
    return last === 0 ? 0 : Math.max(0, this.before - after);
  }

  /** Is there an outcome that would rule a repair out for good: a version whose band meets no band of some other group? */
  separates({ from, to }: Spans): boolean {
    const { stakes, groupFrom, groupTo } = this;
    groupFrom.fill(Infinity);
    groupTo.fill(-Infinity);
    for (let i = 0; i < stakes.length; i++) {
      const { version, group } = stakes[i]!;
      if (from[version]! < groupFrom[group]!) groupFrom[group] = from[version]!;
      if (to[version]! > groupTo[group]!) groupTo[group] = to[version]!;
    }
    // The last to begin and the first to end, and the next of each for versions of those very groups.
    let [begins, ends] = [-1, -1];
    let [begin, nextBegin, end, nextEnd] = [-Infinity, -Infinity, Infinity, Infinity];
    for (let group = 0; group < groupFrom.length; group++) {
      const [low, high] = [groupFrom[group]!, groupTo[group]!];
      if (low > high) continue;
      if (low > begin) [nextBegin, begin, begins] = [begin, low, group];
      else if (low > nextBegin) nextBegin = low;
      if (high < end) [nextEnd, end, ends] = [end, high, group];
      else if (high < nextEnd) nextEnd = high;
    }
    for (let i = 0; i < stakes.length; i++) {
      const { version, group } = stakes[i]!;
      if ((group === begins ? nextBegin : begin) >= to[version]!) return true;
      if ((group === ends ? nextEnd : end) <= from[version]!) return true;
    }
    return false;
  }
}

function entropy(weights: Float64Array, start: number, end: number, total: number): number {
  let sum = 0;
  for (let i = start; i < end; i++) {
    const share = weights[i]! / total;
    if (share > 0) sum -= share * Math.log2(share);
  }
  return sum;
}
