/**
 * A whole session as a person and a failing computer would have it: lines typed, late and undone, crashes that leave half
 * a record, a full disk, resuming. A plain model of lists and loops says what must be there afterwards.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { createJournal, openJournal, readJournal, type Journal } from '../../src/files/journal.js';
import type { Event, Recorded } from '../../src/session/events.js';
import { foldCase } from '../../src/session/fold.js';
import { parseLine } from '../../src/session/parse-line.js';
import { bench } from '../session/bench-circuit.js';
import { AT, PATH } from './journal-sample.js';
import { MemoryFileSystem } from './memory-file-system.js';

/** What the model keeps of each acknowledged event. */
interface Entry {
  readonly what: 'unplug' | 'plug' | 'finding' | 'note' | 'undo';
  readonly before?: number;
  /** Of an undo: the number it takes back. */
  readonly target?: number;
}

interface Model {
  readonly entries: Entry[];
}

interface Real {
  readonly files: MemoryFileSystem;
  journal: Journal;
  recorded: Recorded[];
}

/** Counts unless an undo that counts takes it back. */
function counts({ entries }: Model, number: number): boolean {
  return !entries.some((entry, i) => entry.target === number && counts({ entries }, i + 1));
}

/** Numbers as observed: each late entry goes before its target, after what went there before it. */
function observed({ entries }: Model): number[] {
  const numbers: number[] = [];
  entries.forEach(({ before }, i) => {
    if (before === undefined) numbers.push(i + 1);
    else numbers.splice(numbers.indexOf(before), 0, i + 1);
  });
  return numbers;
}

/** Was X3 unplugged when the event of that number happened? Number 0 = now. */
function unpluggedAt(model: Model, number: number): boolean {
  let unplugged = false;
  for (const other of observed(model)) {
    if (other === number) break;
    const { what } = model.entries[other - 1]!;
    if (counts(model, other) && (what === 'unplug' || what === 'plug')) unplugged = what === 'unplug';
  }
  return unplugged;
}

const LINES: Record<Exclude<Entry['what'], 'undo'>, string> = {
  unplug: 'unplug X3',
  plug: 'plug X3',
  finding: 'volts X3.1h 12.4',
  note: 'note x',
};

type Command = fc.AsyncCommand<Model, Real>;

function agree(model: Model, recorded: readonly Recorded[]): void {
  const folded = foldCase(bench, recorded);
  const kept = observed(model).filter(
    (number) => counts(model, number) && !['note', 'undo'].includes(model.entries[number - 1]!.what),
  );
  expect(
    folded.timeline.map((step) => (step.kind === 'finding' ? step.finding.number : step.number)),
  ).toEqual(kept);
  for (const step of folded.timeline)
    if (step.kind === 'finding')
      expect(step.finding.setUp.unplugged.has('X3')).toBe(unpluggedAt(model, step.finding.number));
  expect(folded.now.unplugged.has('X3')).toBe(unpluggedAt(model, 0));
  expect(folded.notes.map((note) => note.number)).toEqual(
    model.entries.flatMap(({ what }, i) => (what === 'note' && counts(model, i + 1) ? [i + 1] : [])),
  );
}

async function append(real: Real, events: readonly Event[]): Promise<void> {
  real.recorded.push(...(await real.journal.append(events, AT)));
}

/** Types the line; the model says beforehand whether it can be taken. */
async function type(line: string, entry: Entry, possible: boolean, model: Model, real: Real): Promise<void> {
  const parsed = parseLine(line, bench, real.recorded);
  expect([line, parsed.kind]).toEqual([line, possible ? 'events' : 'error']);
  if (parsed.kind !== 'events') return;
  await append(real, parsed.events);
  model.entries.push(entry);
  agree(model, real.recorded);
}

class TypeLine implements Command {
  constructor(
    private readonly what: Exclude<Entry['what'], 'undo'>,
    private readonly late: number | undefined,
  ) {}
  check = (): boolean => true;
  async run(model: Model, real: Real): Promise<void> {
    const { what } = this;
    const before = this.late === undefined ? undefined : 1 + (this.late % (model.entries.length + 1));
    const target = before === undefined ? undefined : model.entries[before - 1];
    const placed =
      before === undefined ||
      (what !== 'note' && target !== undefined && ['unplug', 'plug', 'finding'].includes(target.what));
    const unplugged = unpluggedAt(model, before ?? 0);
    const possible = placed && (what === 'unplug' ? !unplugged : what === 'plug' ? unplugged : true);
    const line = before === undefined ? LINES[what] : `late ${before} ${LINES[what]}`;
    await type(line, { what, ...(before === undefined ? {} : { before }) }, possible, model, real);
  }
  toString = (): string => `${this.late === undefined ? '' : `late ${this.late} `}${this.what}`;
}

class Undo implements Command {
  constructor(private readonly pick: number) {}
  check = (): boolean => true;
  async run(model: Model, real: Real): Promise<void> {
    const target = 1 + (this.pick % (model.entries.length + 1));
    const possible = target <= model.entries.length && counts(model, target);
    await type(`undo ${target}`, { what: 'undo', target }, possible, model, real);
  }
  toString = (): string => `undo ${this.pick}`;
}

class UndoLast implements Command {
  check = (): boolean => true;
  async run(model: Model, real: Real): Promise<void> {
    const target = model.entries.findLastIndex(({ what }, i) => what !== 'undo' && counts(model, i + 1)) + 1;
    await type('undo', { what: 'undo', target }, target > 0, model, real);
  }
  toString = (): string => 'undo';
}

/** The program dies, with so many bytes of a record on their way; then the session is resumed. */
class Crash implements Command {
  constructor(private readonly bytes: number) {}
  check = (): boolean => true;
  async run(model: Model, real: Real): Promise<void> {
    const { files } = real;
    const whole = files.files.get(PATH)!;
    await append(real, [{ type: 'noted', text: 'never acknowledged' }]);
    const after = files.files.get(PATH)!;
    const line = after.length - whole.length;
    files.files.set(PATH, after.slice(0, whole.length + (this.bytes % (line - 1))));
    files.files.delete(`${PATH}.lock`);
    const read = await readJournal(PATH, files);
    const opened = await openJournal(PATH, files);
    expect(opened.recorded).toEqual(real.recorded.slice(0, -1));
    expect(read.recorded).toEqual(opened.recorded);
    expect(opened.repairs.length).toBe(this.bytes % (line - 1) === 0 ? 0 : 1);
    real.journal = opened.journal;
    real.recorded = [...opened.recorded];
    agree(model, real.recorded);
  }
  toString = (): string => `crash after ${this.bytes} bytes`;
}

/** The disk refuses a call while a note is recorded: it is not recorded, and everything before it is there. */
class DiskFails implements Command {
  constructor(
    private readonly call: 1 | 2,
    private readonly bytes: number,
  ) {}
  check = (): boolean => true;
  async run(model: Model, real: Real): Promise<void> {
    const { files } = real;
    Object.assign(files, { failAt: files.calls + this.call, failAfter: this.bytes, failCode: 'ENOSPC' });
    await expect(append(real, [{ type: 'noted', text: 'no room' }])).rejects.toMatchObject({
      code: 'cannot-write',
    });
    files.failAt = 0;
    await expect(append(real, [{ type: 'noted', text: 'again' }])).rejects.toMatchObject({
      code: 'cannot-write',
    });
    await real.journal.close();
    const opened = await openJournal(PATH, files);
    expect(opened.recorded).toEqual(real.recorded);
    real.journal = opened.journal;
    agree(model, opened.recorded);
  }
  toString = (): string => `disk fails at call ${this.call} after ${this.bytes} bytes`;
}

class Resume implements Command {
  check = (): boolean => true;
  async run(model: Model, real: Real): Promise<void> {
    const { hash } = real.journal;
    await real.journal.close();
    const opened = await openJournal(PATH, real.files);
    expect(opened).toMatchObject({ hash, recorded: real.recorded, repairs: [] });
    real.journal = opened.journal;
    agree(model, opened.recorded);
  }
  toString = (): string => 'resume';
}

const late = fc.option(fc.nat(20), { nil: undefined, freq: 2 });
const commands = fc.commands(
  [
    fc
      .tuple(fc.constantFrom('unplug' as const, 'plug' as const, 'finding' as const, 'note' as const), late)
      .map((pair) => new TypeLine(...pair)),
    fc.nat(20).map((pick) => new Undo(pick)),
    fc.constant(new UndoLast()),
    fc.nat(400).map((bytes) => new Crash(bytes)),
    fc.tuple(fc.constantFrom(1 as const, 2 as const), fc.nat(400)).map((pair) => new DiskFails(...pair)),
    fc.constant(new Resume()),
  ],
  { maxCommands: 30, size: 'max' },
);

test('when lines, undos, late entries, crashes and full disks come in any order then the session is what was acknowledged', async () => {
  await fc.assert(
    fc.asyncProperty(commands, async (run) => {
      const files = new MemoryFileSystem();
      const real: Real = { files, journal: await createJournal(PATH, files), recorded: [] };
      await fc.asyncModelRun(() => ({ model: { entries: [] }, real }), run);
      await real.journal.close();
    }),
    { seed: 31, numRuns: 150 },
  );
});
