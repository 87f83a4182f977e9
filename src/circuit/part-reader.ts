/** What every builder of a part needs at hand: the part's document, its place in the file, and where mistakes go. */
import type { Control } from './circuit.js';
import { pointer, type Ranges } from './diagnostic.js';
import type { PartDocument } from './document.js';
import type { Mistakes } from './mistakes.js';
import { didYouMean } from './nearest.js';
import type { Quantity } from './quantity.js';

export interface PartContext {
  readonly nominalVolts: number;
  readonly controls: ReadonlyMap<string, Control>;
  /** Place names by lower case. */
  readonly places: ReadonlyMap<string, string>;
  readonly ranges: Ranges;
  readonly mistakes: Mistakes;
}

export class PartReader {
  /** JSON Pointer of the part. */
  readonly at: string;
  readonly ranges: Ranges;
  readonly mistakes: Mistakes;

  constructor(
    readonly id: string,
    readonly document: PartDocument,
    readonly context: PartContext,
  ) {
    this.at = pointer('parts', id);
    this.ranges = context.ranges;
    this.mistakes = context.mistakes;
  }

  /** The amount under one of the part's own keys. */
  amount(key: keyof PartDocument & string, quantity: Quantity, fallback: number): number {
    return this.amountAt([key], this.document[key] as string | undefined, quantity, fallback);
  }

  /** An amount deeper in the part's document. */
  amountAt(
    path: readonly (string | number)[],
    text: string | undefined,
    quantity: Quantity,
    fallback: number,
  ): number {
    return this.mistakes.amount(text, quantity, this.ranges.value(this.at + pointer(...path)), fallback);
  }

  /** Rated volts; the system's where none are given. */
  volts(label: string): number {
    const { nominalVolts } = this.context;
    const rated = this.amount('volts', 'volts', nominalVolts);
    if (rated > nominalVolts * 1.25 || rated < nominalVolts * 0.8) {
      this.mistakes.advice(
        'other-voltage',
        this.ranges.value(`${this.at}/volts`),
        `${label} is made for ${rated} V, but the system has ${nominalVolts} V`,
        'correct it, unless the part really runs on another voltage',
      );
    }
    return rated;
  }

  /** Rated current by exactly one of these keys; notes none or two of them. */
  drawn(label: string, keys: readonly ('amps' | 'watts' | 'ohms')[]): { amps: number; volts: number } {
    const { id, at, document, mistakes, ranges } = this;
    const volts = this.volts(label);
    const given = keys.filter((key) => document[key] !== undefined);
    const examples = { amps: 'amps: 5 A', watts: 'watts: 60 W', ohms: 'ohms: 12 ohm' };
    const mend = `give one of them, as on the part: ${listed(
      keys.map((key) => examples[key]),
      'or',
    )}`;
    if (given.length === 0) {
      const none = keys.length === 2 ? 'neither' : 'none of';
      mistakes.error(
        'missing-key',
        ranges.key(at),
        `${id} has ${none} ${listed(keys, keys.length === 2 ? 'nor' : 'and')}`,
        mend,
      );
    }
    if (given.length > 1) {
      const what = `${id} has both ${listed(given.slice(0, 2), 'and')}`;
      mistakes.error('contradiction', ranges.key(`${at}/${given[1]!}`), what, mend);
    }
    switch (given[0]) {
      case 'amps':
        return { amps: this.amount('amps', 'amps', 5), volts };
      case 'ohms':
        return { amps: volts / this.amount('ohms', 'ohms', 12), volts };
      default:
        return { amps: this.amount('watts', 'watts', 60) / volts, volts };
    }
  }

  /** The control that works the part; notes a name that is none. */
  control(): Control | undefined {
    const { id, document, context } = this;
    const typed = document.control ?? '';
    const control = [...context.controls.values()].find(
      (one) => one.id.toLowerCase() === typed.toLowerCase(),
    );
    if (!control) {
      this.mistakes.error(
        'unknown-name',
        this.ranges.value(`${this.at}/control`),
        `${id} is worked by “${typed}”, but there is no control of that name`,
        didYouMean(typed, context.controls.keys(), 'control'),
      );
    }
    return control;
  }

  /** Positions of a control, spelled as the control spells them; `path` leads to the list or the single one. */
  positions(control: Control | undefined, typed: string | readonly string[], path: string): string[] {
    const list = typeof typed === 'string' ? [typed] : typed;
    return list.map((position, nth) =>
      this.position(
        control,
        position,
        this.ranges.value(typeof typed === 'string' ? path : `${path}/${nth}`),
      ),
    );
  }

  position(control: Control | undefined, typed: string, range: ReturnType<Ranges['value']>): string {
    const found = control?.positions.find((one) => one.toLowerCase() === typed.toLowerCase());
    if (control && found === undefined) {
      this.mistakes.error(
        'unknown-name',
        range,
        `${control.id} has no position “${typed}”`,
        didYouMean(typed, control.positions, 'position'),
      );
    }
    return found ?? typed;
  }

  /** Notes a pair that names one terminal twice. */
  between([a, b]: readonly [string, string], what: string, path: string): readonly [string, string] {
    if (a.toLowerCase() === b.toLowerCase()) {
      this.mistakes.error(
        'contradiction',
        this.ranges.value(path),
        `a ${what} cannot join ${a} to itself`,
        'name two terminals',
      );
    }
    return [a, b];
  }
}

function listed(words: readonly string[], last: string): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)!}`;
}
