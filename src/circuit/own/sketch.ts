/** A circuit file in the making: parts and wires in groups, each with a comment for a reader who has never seen such a file. */

export interface Group {
  readonly comment: string;
  readonly lines: string[];
}

/** Keys and values as they are to be read; what needs quotes gets them. */
export type Keys = readonly (readonly [key: string, value: string | readonly string[] | undefined])[];

export class Sketch {
  readonly parts: Group[] = [];
  readonly wires: Group[] = [];
  readonly places = new Map<string, string>();
  readonly controls: string[] = [];
  #wire = 0;
  readonly #ids = new Map<string, number>();

  group(comment: string): void {
    this.parts.push({ comment, lines: [] });
    this.wires.push({ comment, lines: [] });
  }

  /** The next free id with this letter: `H1`, `H2` … */
  id(letters: string): string {
    const number = (this.#ids.get(letters) ?? 0) + 1;
    this.#ids.set(letters, number);
    return `${letters}${number}`;
  }

  /** @param raw one more `key: value` as it stands in the file, for lists of groups */
  part(letters: string, keys: Keys, raw = ''): string {
    const id = this.id(letters);
    const own = keys.flatMap(([key, value]) => (value === undefined ? [] : [`${key}: ${written(value)}`]));
    this.parts.at(-1)!.lines.push(`${id}: {${[...own, ...(raw === '' ? [] : [raw])].join(', ')}}`);
    return id;
  }

  /** A part that needs lines of its own. */
  block(letters: string, lines: readonly string[]): string {
    const id = this.id(letters);
    this.parts.at(-1)!.lines.push(`${id}:`, ...lines.map((line) => `  ${line}`));
    return id;
  }

  wire(from: string, to: string, mm2: number, metres: number, why: string): void {
    const line = `- {id: W${++this.#wire}, from: ${from}, to: ${to}, size: ${mm2} mm2, length: ${metres} m}`;
    this.wires.at(-1)!.lines.push(`${line.padEnd(76)} # ${why}`);
  }

  place(name: string, minutes: number, hazard?: string): string {
    const open = `${minutes} min`;
    this.places.set(name, hazard === undefined ? open : `{open: ${open}, hazard: ${hazard}}`);
    return name;
  }

  control(name: string, positions: readonly string[], helper: boolean, note: string): void {
    const list = `[${positions.map((one) => written(one)).join(', ')}]`;
    const value = helper ? `{positions: ${list}, helper: true}` : list;
    this.controls.push(`${`${written(name)}: ${value}`.padEnd(50)} # ${note}`);
  }
}

/** As a value in braces: quoted where its signs would mean something to YAML. */
export function written(value: string | readonly string[]): string {
  if (typeof value !== 'string') return `[${value.map((one) => written(one)).join(', ')}]`;
  return /^[\p{L}\p{N}](?:[\p{L}\p{N} ._/()+'-]*[\p{L}\p{N}._/()+'-])?$/u.test(value)
    ? value
    : JSON.stringify(value);
}
