/** The ends of a fault-finding tree in words: a repair, a group of parts, or that it is not in this drawing. */
import type { Circuit } from '../circuit/circuit.js';
import type { TreeLeaf } from '../planning/tree-types.js';
import { few, percent } from './layout.js';

/** Share of a leaf from which on a part is named. */
export const NAMED = 0.08;
const MOST_NAMED = 3;

/** A part is told with its label where it first comes up, afterwards by its id: a sheet of paper is small. */
export class LeafWords {
  private readonly told = new Set<string>();

  constructor(private readonly circuit: Circuit) {}

  of({ end, repairs }: TreeLeaf): string {
    const [leader, ...rest] = repairs;
    if (end === 'not in this drawing' || leader === undefined)
      return 'NOT IN THIS DRAWING as one fault: take the readings again, compare the vehicle with the drawing';
    switch (end) {
      case 'repair': {
        const parts = rest.filter(({ share, part }) => share >= NAMED && part !== leader.part);
        const others = parts.map(({ part }) => this.name(part));
        const more = others.length > 0 ? `; else ${few([...new Set(others)], MOST_NAMED)}` : '';
        this.told.add(leader.part);
        return `${capital(leader.how)} (${leader.minutes} min)${more}`;
      }
      case 'one part':
        return this.onePart(leader.part, repairs);
      default:
        return `One of: ${this.parts(repairs)}${end === 'alike' ? '; no test here tells them apart' : ''}`;
    }
  }

  /** The words of a test: a label is dropped where its part was told before, so that a probe point takes no line of its own. */
  shorten(words: string): string {
    return words.replace(
      /([A-Za-z]\w*)((?:\.\w+)?) \(([^()]*)\)/g,
      (whole, part: string, pin: string, label: string) => {
        if (this.circuit.parts.get(part)?.label !== label) return whole;
        if (this.told.has(part)) return `${part}${pin}`;
        this.told.add(part);
        return whole;
      },
    );
  }

  /** "S4 (stop switch): replace; or clean and tighten the contacts". */
  private onePart(part: string, repairs: TreeLeaf['repairs']): string {
    const long = this.longName(part);
    const hows = repairs
      .filter((repair) => repair.part === part && repair.share >= NAMED)
      .map(({ how }) =>
        how
          .replace(` at terminal ${how.split(' at terminal ')[1] ?? ''}`, '')
          .replace(` of ${long}`, '')
          .replace(` ${long}`, ''),
      );
    return `${this.name(part)}: ${few([...new Set(hows)], MOST_NAMED, '; or ')}`;
  }

  private parts(repairs: TreeLeaf['repairs']): string {
    const shares = new Map<string, number>();
    for (const { part, share } of repairs) shares.set(part, (shares.get(part) ?? 0) + share);
    const ranked = [...shares].sort((a, b) => b[1] - a[1]);
    const named = ranked.filter(([, share], i) => i < MOST_NAMED && (share >= NAMED || i === 0));
    const words = named.map(([part, share]) => `${this.name(part)} ${percent(share)}`);
    return few([...words, ...ranked.slice(named.length).map(() => '')], words.length);
  }

  private name(part: string): string {
    if (this.told.has(part)) return part;
    this.told.add(part);
    return this.longName(part);
  }

  private longName(part: string): string {
    const label = this.circuit.parts.get(part)?.label ?? '';
    if (label !== '') return `${part} (${label})`;
    const wire = this.circuit.wires.find(({ id }) => id === part);
    return wire === undefined ? part : `${part} (${wire.from} to ${wire.to})`;
  }
}

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
