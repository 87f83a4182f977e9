/** Random sessions against a simple model: a list of entries, each with a flag. Undo must never do more or less than it says. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { decide, nextNumber } from '../../src/session/decide.js';
import type { Event, Recorded } from '../../src/session/events.js';
import { foldCase } from '../../src/session/fold.js';
import { circuit } from './lamps.js';

interface Model {
  /** Every event recorded; an undo points at its target. */
  readonly entries: { readonly event: Event; counts: boolean }[];
}
interface Real {
  recorded: Recorded[];
}

/** Whether each entry counts, straight from the words: an undo that counts takes its target's count away. */
function settle(model: Model): void {
  for (const entry of model.entries) entry.counts = true;
  for (const entry of [...model.entries].reverse())
    if (entry.event.type === 'undone' && entry.counts) model.entries[entry.event.number - 1]!.counts = false;
}

function record(model: Model, real: Real, event: Event): void {
  const decision = decide(circuit, real.recorded, [event]);
  expect(decision).toMatchObject({ ok: true });
  real.recorded = [...real.recorded, { number: nextNumber(real.recorded), at: '', event }];
  model.entries.push({ event, counts: true });
  settle(model);
  compare(model, real);
}

/** The fold equals the fold of a session in which only what counts was ever recorded. */
function compare(model: Model, real: Real): void {
  const session = foldCase(circuit, real.recorded);
  const counting = model.entries
    .map(({ event, counts }, index) => ({ number: index + 1, event, counts }))
    .filter(({ event, counts }) => counts && event.type !== 'undone');
  const controls = new Map([...circuit.controls.values()].map(({ id, positions }) => [id, positions[0]!]));
  const unplugged = new Set<string>();
  const setUps = new Map<number, string>();
  for (const { number, event } of counting) {
    if (event.type === 'did' && event.action.do === 'operate')
      controls.set(event.action.control, event.action.position);
    if (event.type === 'did' && event.action.do === 'unplug') unplugged.add(event.action.connector);
    if (event.type === 'did' && event.action.do === 'plug') unplugged.delete(event.action.connector);
    if (event.type === 'found') setUps.set(number, JSON.stringify([[...controls], [...unplugged].sort()]));
  }
  const seen = session.timeline.flatMap((step) =>
    step.kind === 'finding'
      ? [
          [
            step.finding.number,
            JSON.stringify([[...step.finding.setUp.controls], [...step.finding.setUp.unplugged].sort()]),
          ] as const,
        ]
      : [],
  );
  expect(seen).toEqual([...setUps]);
  expect([...session.now.controls]).toEqual([...controls]);
  expect(new Set(session.now.unplugged)).toEqual(unplugged);
  expect(session.notes.length).toBe(counting.filter(({ event }) => event.type === 'noted').length);
}

class Operate implements fc.Command<Model, Real> {
  constructor(
    readonly control: string,
    readonly position: string,
  ) {}
  check = (): boolean => true;
  run(model: Model, real: Real): void {
    record(model, real, {
      type: 'did',
      action: { do: 'operate', control: this.control, position: this.position },
    });
  }
  toString = (): string => `${this.control} ${this.position}`;
}

class Connect implements fc.Command<Model, Real> {
  constructor(
    readonly what: 'unplug' | 'plug',
    readonly connector: string,
  ) {}
  check = (): boolean => true;
  run(model: Model, real: Real): void {
    const standing = foldCase(circuit, real.recorded).now.unplugged.has(this.connector);
    const event: Event = { type: 'did', action: { do: this.what, connector: this.connector } };
    if (standing === (this.what === 'plug')) return record(model, real, event);
    // The other way round it is refused and changes nothing.
    expect(decide(circuit, real.recorded, [event])).toMatchObject({ ok: false });
  }
  toString = (): string => `${this.what} ${this.connector}`;
}

class Find implements fc.Command<Model, Real> {
  constructor(readonly lit: boolean) {}
  check = (): boolean => true;
  run(model: Model, real: Real): void {
    record(model, real, {
      type: 'found',
      reading: { kind: 'load', load: 'H1', value: this.lit ? 'lit' : 'off' },
    });
  }
  toString = (): string => `H1 ${this.lit ? 'lit' : 'off'}`;
}

class Note implements fc.Command<Model, Real> {
  check = (): boolean => true;
  run(model: Model, real: Real): void {
    record(model, real, { type: 'noted', text: 'a' });
  }
  toString = (): string => 'note a';
}

class Undo implements fc.Command<Model, Real> {
  constructor(readonly pick: number) {}
  check = (model: Readonly<Model>): boolean => model.entries.length > 0;
  run(model: Model, real: Real): void {
    const index = this.pick % model.entries.length;
    const event: Event = { type: 'undone', number: index + 1 };
    if (model.entries[index]!.counts) return record(model, real, event);
    expect(decide(circuit, real.recorded, [event])).toMatchObject({ ok: false });
  }
  toString = (): string => `undo (${this.pick})`;
}

const commands = [
  ...[...circuit.controls.values()].map((control) =>
    fc.constantFrom(...control.positions).map((position) => new Operate(control.id, position)),
  ),
  fc
    .tuple(fc.constantFrom<'unplug' | 'plug'>('unplug', 'plug'), fc.constantFrom('X3', 'X4'))
    .map(([what, connector]) => new Connect(what, connector)),
  fc.boolean().map((lit) => new Find(lit)),
  fc.constant(new Note()),
  fc.nat(40).map((pick) => new Undo(pick)),
  fc.nat(40).map((pick) => new Undo(pick)),
];

test('when events and undos come in any order then only what counts is folded', () => {
  fc.assert(
    fc.property(fc.commands(commands, { maxCommands: 40 }), (sequence) => {
      fc.modelRun(() => ({ model: { entries: [] }, real: { recorded: [] } }), sequence);
    }),
    { numRuns: 300, seed: 1 },
  );
});

test('when a session is folded after every event then earlier findings never change by what is only added', () => {
  const event = fc.oneof(
    fc.constant<Event>({ type: 'found', reading: { kind: 'load', load: 'H1', value: 'off' } }),
    fc
      .constantFrom('off', 'on')
      .map((position): Event => ({ type: 'did', action: { do: 'operate', control: 'key', position } })),
    fc
      .constantFrom<'present' | 'absent'>('present', 'absent')
      .map((symptom): Event => ({ type: 'symptom', symptom })),
  );
  fc.assert(
    fc.property(fc.array(event, { maxLength: 20 }), (events) => {
      const recorded = events.map((one, index) => ({ number: index + 1, at: '', event: one }));
      const whole = foldCase(circuit, recorded).timeline;
      for (let count = 0; count <= recorded.length; count++) {
        const part = foldCase(circuit, recorded.slice(0, count)).timeline;
        expect(part).toEqual(whole.slice(0, part.length));
      }
    }),
    { numRuns: 100, seed: 2 },
  );
});
