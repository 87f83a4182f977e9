/** How far a replay has come, on one line of a terminal that is wiped again. Nothing where nobody watches. */
import type { Io } from '../io.js';

const MILLISECONDS_BETWEEN = 100;

export class Progress {
  #shown = '';
  #last = 0;
  #done = 0;
  #bad = 0;
  readonly #watched: boolean;

  constructor(
    private readonly io: Io,
    private readonly of: number,
  ) {
    const { CI, TERM } = io.env;
    const off = (CI !== undefined && CI !== '' && CI !== 'false') || TERM === 'dumb';
    this.#watched = io.isTTY.stderr && !off && of > 1;
  }

  step(holds: boolean): void {
    this.#done++;
    if (!holds) this.#bad++;
    const now = this.io.now().getTime();
    if (now - this.#last < MILLISECONDS_BETWEEN) return;
    this.#last = now;
    this.#show(this.#words());
  }

  /** Prints on stdout: where that is the same terminal, the line makes room and comes back. */
  around(print: () => void): void {
    const shown = this.#shown !== '' && this.io.isTTY.stdout;
    if (shown) this.wipe();
    print();
    if (shown) this.#show(this.#words());
  }

  wipe(): void {
    this.#show('');
  }

  #words(): string {
    return `${this.#done} of ${this.of}${this.#bad === 0 ? '' : `, ${this.#bad} not as expected`}`;
  }

  #show(text: string): void {
    if (!this.#watched || text === this.#shown) return;
    this.io.stderr.write(`\r${text.padEnd(this.#shown.length)}${text === '' ? '\r' : ''}`);
    this.#shown = text;
  }
}
