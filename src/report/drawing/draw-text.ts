/**
 * A circuit as a drawing in text, 80 columns: each ladder from the feed at the top to ground at the bottom, a line for each
 * piece, forks to the right. The first column has the sign of its standing in the session.
 */
import { calledOf, type PointId } from '../../circuit/circuit.js';
import { visible } from '../../circuit/visible.js';
import type { Status } from '../../diagnosis/diagnosis-types.js';
import { toAscii, wrap } from '../layout.js';
import { laddersOf, type Ladder, type Run, type Rung } from './ladders.js';
import { NO_MARKS, SIGNS, type Mark, type Marks } from './marks.js';
import type { Plan } from '../../circuit/downhill.js';
import { figuresAt, NO_STANDING, type Standing } from './standing.js';
import { ASCII_SIGNS, SCREEN_SIGNS, signOf, type Signs } from './text-signs.js';
import { contactWords, partWords, pointWords, wireWords } from './words.js';

const WIDTH = 80;
/** Between the column of signs and the first stretch. */
const RAILS = '  ';
/** Columns that a line which goes on below may be indented by. */
const DEEPEST = 24;
/** A ladder is not about these. */
const PASSED: ReadonlySet<string> = new Set(['connector', 'splice', 'ground']);

export interface DrawnLine {
  readonly text: string;
  /** Of the piece on it, for a screen that has colours. */
  readonly status?: Status;
}

export interface TextOptions {
  readonly marks?: Marks;
  readonly standing?: Standing;
  readonly ascii?: boolean;
}

export function drawText(plan: Plan, options: TextOptions = {}): readonly DrawnLine[] {
  return new TextDrawing(plan, options).lines();
}

class TextDrawing {
  readonly #out: DrawnLine[] = [];
  readonly #signs: Signs;
  readonly #marks: Marks;
  readonly #standing: Standing;
  readonly #used = new Set<Status>();
  readonly #shown = new Map<PointId, string>();

  constructor(
    private readonly plan: Plan,
    private readonly options: TextOptions,
  ) {
    this.#signs = options.ascii === true ? ASCII_SIGNS : SCREEN_SIGNS;
    this.#marks = options.marks ?? NO_MARKS;
    this.#standing = options.standing ?? NO_STANDING;
  }

  lines(): readonly DrawnLine[] {
    const { circuit } = this.plan;
    this.#say(`${circuit.title} (${circuit.id})`);
    this.#say(
      this.#standing.closed.size === 0
        ? ''
        : `Controls: ${this.#standing.when.length === 0 ? 'all at rest' : `${this.#standing.when.join(', ')}; the others at rest`}.${this.#standing.volts.size > 0 ? ' Volts against bat-, calculated for a healthy circuit.' : ''}`,
    );
    const ladders = laddersOf(this.plan);
    for (const { name, run, elsewhere } of ladders)
      for (const point of pointsIn(run, elsewhere)) if (!this.#shown.has(point)) this.#shown.set(point, name);
    ladders.forEach((ladder, index) => this.#ladder(ladder, index === 0));
    this.#legend();
    return this.#out;
  }

  #ladder(ladder: Ladder, first: boolean): void {
    const { run, name } = ladder;
    this.#put('');
    this.#put(`${name}  ${first ? 'from battery +' : this.#about(run)}`);
    this.#point(run.from, RAILS);
    this.#run(ladder, run, RAILS, 0);
  }

  /** What a ladder is about: the first part on its way, or that it leads back to the battery. */
  #about(run: Run): string {
    const { circuit, grounded } = this.plan;
    if (grounded.has(run.from) && run.foot === 'battery') return 'from the metal back to battery -';
    const inside = run.rungs[0]?.link.kind === 'inside' ? ` ${run.rungs[0].to}` : '';
    const names = [...run.rungs.map(({ link }) => link.owner), run.to.split('.')[0]!];
    const [part] = names
      .flatMap((name) => circuit.parts.get(name) ?? [])
      .filter(({ type }) => !PASSED.has(type));
    return part === undefined ? `from ${pointWords(circuit, run.from)}` : `${calledOf(part)}${inside}`;
  }

  /** @param skip rungs that stand on the line of the fork already */
  #run(ladder: Ladder, run: Run, rails: string, skip: number): void {
    const rungs = run.rungs.slice(skip);
    rungs.forEach((rung, index) => {
      this.#rung(rung, `${rails}${this.#signOf(rung)} `);
      const inside = index < rungs.length - 1;
      if (inside && this.plan.circuit.parts.get(rung.to)?.type === 'splice') this.#point(rung.to, rails);
    });
    this.#foot(run, rails);
    run.branches.forEach((branch, index) => {
      const last = index === run.branches.length - 1;
      const elsewhere = ladder.elsewhere.get(branch);
      const first = branch.rungs[0]!;
      if (elsewhere !== undefined) {
        const way = last ? this.#signs.corner : this.#signs.tee;
        const lead = `${rails}${way}${this.#signs.arrow} `;
        const words = `ladder ${elsewhere}: ${this.#about(branch)}${this.#by(first)}`;
        this.#put(`${lead}${words}`, this.#marks.link(first.link), lead.length);
      } else if (last) this.#run(ladder, branch, rails, 0);
      else {
        const onFork = first.link.kind === 'wire' ? 1 : 0;
        const inner = `${rails}${this.#signs.line} `;
        if (onFork === 0) this.#put(`${rails}${this.#signs.fork}`);
        else this.#rung(first, `${rails}${this.#signs.fork} `);
        const meets =
          onFork === 1 && branch.rungs.length > 1 && this.plan.circuit.parts.get(first.to)?.type === 'splice';
        if (meets) this.#point(first.to, inner);
        this.#run(ladder, branch, inner, onFork);
      }
    });
  }

  #by({ link }: Rung): string {
    return link.kind === 'wire' ? `, by ${link.owner}` : '';
  }

  #signOf({ link }: Rung): string {
    return signOf(this.#signs, this.plan.circuit, link, this.#standing.closed.get(link.index));
  }

  #rung(rung: Rung, lead: string): void {
    this.#put(`${lead}${this.#rungWords(rung)}`, this.#marks.link(rung.link), lead.length);
  }

  #foot({ foot, to, rungs }: Run, rails: string): void {
    const name = pointWords(this.plan.circuit, to);
    if (foot === 'ground')
      this.#put(`${rails}${this.#signs.ground} ${name}${this.#voltsAt(to)}`, this.#marks.point(to));
    else if (foot === 'battery') this.#point(to, rails);
    else if (foot === 'drawn')
      this.#put(
        `${rails}${this.#signs.corner}${this.#signs.arrow} to ${name}, ladder ${this.#shown.get(to) ?? '?'}`,
      );
    else if (foot === 'end')
      this.#put(`${rails}${this.#signs.stop} ${this.#goesOn(to, rungs) ?? `ends at ${name}`}`);
    else if (rungs.length > 0) this.#point(to, rails);
  }

  /** Where current may go either way, a piece further on is drawn from its other end. */
  #goesOn(to: PointId, rungs: readonly Rung[]): string | undefined {
    const own = new Set(rungs.map(({ link }) => link));
    const names = (this.plan.at.get(to) ?? []).filter((link) => !own.has(link)).map(({ owner }) => owner);
    return names.length === 0 ? undefined : `${to} goes on as ${names.join(', ')}, drawn from its other end`;
  }

  #point(point: PointId, rails: string): void {
    this.#put(
      `${rails}${this.#signs.splice} ${pointWords(this.plan.circuit, point)}${this.#voltsAt(point)}`,
      this.#marks.point(point),
    );
  }

  #rungWords(rung: Rung): string {
    const { circuit } = this.plan;
    const { link } = rung;
    if (link.kind === 'wire') return wireWords(circuit, link.owner);
    const { from, to } = rung;
    const state = link.kind === 'contact' ? `: ${contactWords(link, this.#standing)}` : '';
    const ends = `${from}${this.#voltsAt(from)} to ${to}${this.#voltsAt(to)}`;
    return `${ends}  ${partWords(circuit, link)}${state}`;
  }

  #voltsAt(point: PointId): string {
    const figures = figuresAt(this.#standing, point);
    return figures === '' ? '' : ` [${figures}]`;
  }

  #legend(): void {
    this.#put('');
    this.#say(this.#signs.legend);
    if (this.#standing.read.size > 0)
      this.#say('read: last measured there against bat-, with its number in the record.');
    if (this.#used.size > 0)
      this.#say(
        `First column: ${Object.entries(SIGNS)
          .filter(([status]) => this.#used.has(status as Status))
          .map(([, [sign, meaning]]) => `${sign} ${meaning}`)
          .join(', ')}.`,
      );
  }

  #say(text: string): void {
    if (text !== '') for (const line of wrap(visible(text), WIDTH)) this.#put(line);
  }

  /** One piece; what does not fit goes on under its words, `lead` columns in. */
  #put(text: string, mark?: Mark, lead = 0): void {
    if (mark !== undefined) this.#used.add(mark.status);
    const words = mark === undefined || mark.words === '' ? '' : `  <-- ${mark.words}`;
    const whole = visible(`${mark?.sign ?? ''}${text.slice(mark === undefined ? 0 : 1)}${words}`);
    const line = this.options.ascii === true ? toAscii(whole) : whole;
    const rest = `${[...line.slice(0, Math.min(lead, DEEPEST))].map((sign, at) => (sign === this.#signs.line && at < lead - 2 ? sign : ' ')).join('')}  `;
    const lines = line.length <= WIDTH ? [line] : wrap(line.slice(lead), WIDTH, line.slice(0, lead), rest);
    for (const text of lines) this.#out.push(mark === undefined ? { text } : { text, status: mark.status });
  }
}

function pointsIn(run: Run, elsewhere: ReadonlyMap<Run, string>): readonly PointId[] {
  const branches = run.branches.filter((branch) => !elsewhere.has(branch));
  return [
    run.from,
    ...run.rungs.map(({ to }) => to),
    ...branches.flatMap((branch) => pointsIn(branch, elsewhere)),
  ];
}
