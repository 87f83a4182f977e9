/** Changes to a circuit file: only what changes is touched, the result is in order, and what makes no sense is refused. */
import { describe, expect, test } from 'vitest';
import { applyChange, asOwnFile } from '../../../src/files/adapt/apply-change.js';
import { readChange } from '../../../src/files/adapt/change.js';
import type { LoadedCircuit } from '../../../src/files/circuit-file.js';
import { fromShelf, loaded, SHELF } from '../../circuit/shelf.js';

function changed(before: LoadedCircuit, line: string): LoadedCircuit {
  const read = readChange(line, before.circuit);
  const applied = 'wrong' in read ? read : applyChange(before, read.change);
  if ('wrong' in applied) throw new Error(`${applied.wrong}; ${applied.mend}`);
  return loaded(applied.text);
}

function refused(before: LoadedCircuit, line: string): string {
  const read = readChange(line, before.circuit);
  const applied = 'wrong' in read ? read : applyChange(before, read.change);
  if (!('wrong' in applied)) throw new Error(`was taken: ${line}`);
  expect(applied.mend).not.toBe('');
  return applied.wrong;
}

const comments = (text: string): string[] => text.match(/#.*$/gm) ?? [];
const lines = (text: string): string[] => text.split('\n');
/** Lines of the first that the second lacks. */
const lost = (before: string, after: string): string[] =>
  lines(before).filter((line) => !lines(after).includes(line));

describe.each(SHELF.filter((_, i) => i % 4 === 0))('%s', (name) => {
  const before = fromShelf(name);
  const { circuit, source } = before;

  test('when a connector is put into a wire then the file is in order and only that wire changed', () => {
    const wires = circuit.wires.filter((_, i) => i % 9 === 1);
    for (const { id, from, to, mm2, metres } of wires) {
      const after = changed(before, `connector XX9 in ${id}`);
      expect(lost(source, after.source)).toHaveLength(1);
      expect(comments(after.source)).toEqual(expect.arrayContaining(comments(source)));
      const wire = after.circuit.wires.find((one) => one.id === id)!;
      const beyond = after.circuit.wires.find((one) => one.from === 'XX9.1c')!;
      expect([wire.from, wire.to, beyond.to]).toEqual([from, 'XX9.1h', to]);
      expect(beyond.mm2).toBeCloseTo(mm2, 2);
      expect(wire.metres + beyond.metres).toBeCloseTo(metres, 1);
      // Sessions speak of wires by name: those without an id of their own must keep their numbers.
      for (const one of circuit.wires) expect(after.circuit.wires.map((other) => other.id)).toContain(one.id);
    }
  });

  test('when a part is renamed then every wire follows and nothing else changes', () => {
    const part = [...circuit.parts.values()].find(({ type }) => type === 'connector' || type === 'fuse')!;
    const after = changed(before, `rename ${part.id} to QQ7`);
    expect(after.circuit.parts.has(part.id)).toBe(false);
    expect({ ...after.circuit.parts.get('QQ7'), id: part.id }).toEqual(
      part.label.includes(part.id) ? expect.anything() : part,
    );
    expect(after.circuit.wires.map(({ from, to }) => [from, to])).toEqual(
      circuit.wires.map(({ from, to }) =>
        [from, to].map((end) => (end.split('.')[0] === part.id ? end.replace(part.id, 'QQ7') : end)),
      ),
    );
    expect(comments(after.source)).toEqual(comments(source));
    // There and back is the same file, byte for byte.
    expect(changed(after, `rename QQ7 ${part.id}`).source).toBe(source);
  });
});

describe('stop-tail', () => {
  const before = fromShelf('stop-tail');

  test('when a value is swapped then that value alone is another one', () => {
    const after = changed(before, 'set F4 rating 20 A');
    expect(after.source).toBe(before.source.replace('horn, rating: 15 A', 'horn, rating: 20 A'));
    expect(
      changed(before, 'set W4.size=1.5 mm2').source.replace('to: F6.1, size: 1.5', 'to: F6.1, size: 2.5'),
    ).toBe(before.source);
    expect(changed(before, 'set title Stop lamps, changed: "mine"').circuit.title).toBe(
      'Stop lamps, changed: "mine"',
    );
  });

  test('when a key is not there yet then it is put in, in braces and on lines of its own', () => {
    expect(changed(before, 'set H1 volts 12.5 V').circuit.parts.get('H1')).toMatchObject({
      filaments: [{ volts: 12.5 }, { volts: 12.5 }],
    });
    const starter = fromShelf('power-window');
    const after = changed(starter, 'set S2 never-probe true');
    expect(after.circuit.parts.get('S2')!.neverProbe).toBe(true);
    expect(lost(starter.source, after.source).length).toBeLessThanOrEqual(1);
  });

  test('when a lamp of the catalogue takes the place of watts then the watts go', () => {
    const after = changed(before, 'set H3 catalogue W5W');
    expect(after.source).toMatch(
      /H3: \{type: lamp, name: high-mounted stop lamp, place: rear door, price: 4, catalogue: W5W\}/,
    );
    expect(after.circuit.parts.get('H3')).toMatchObject({ filaments: [{ watts: 5 }] });
  });

  test('when a lamp is added on a splice and a ground then two wires come with it', () => {
    const after = changed(before, 'lamp H9 P21W from SP3 to GP3 named extra stop lamp');
    expect(after.circuit.parts.get('H9')).toMatchObject({
      label: 'extra stop lamp',
      place: 'tail left',
      filaments: [{ watts: 21 }],
    });
    expect(after.circuit.wires.length).toBe(before.circuit.wires.length + 2);
    expect(lost(before.source, after.source)).toEqual([]);
  });

  test('when it is added on terminals then splices are put into their wires', () => {
    const after = changed(before, 'lamp H9 5 W H3.1 H3.31');
    const splices = [...after.circuit.parts.values()].filter(({ type }) => type === 'splice').length;
    expect(splices).toBe(
      [...before.circuit.parts.values()].filter(({ type }) => type === 'splice').length + 2,
    );
    expect(after.circuit.wires.length).toBe(before.circuit.wires.length + 4);
    expect(comments(after.source)).toEqual(expect.arrayContaining(comments(before.source)));
  });

  test('when one connector goes into two wires then it has two pins', () => {
    const after = changed(before, 'connector X9 in W5, W7 at engine bay');
    expect(after.circuit.parts.get('X9')).toMatchObject({ pins: ['1', '2'], place: 'engine bay' });
    expect(after.circuit.places.get('engine bay')!.minutes).toBe(5);
  });

  test('when changes follow each other then all are in the file, and its head says so', () => {
    let now = before;
    for (const line of [
      'connector X9 in W8',
      'set X9 name "plug, rear"',
      'rename X9 X10',
      'lamp H9 5 W SP3 GP3',
    ])
      now = changed(now, line);
    const text = asOwnFile(now.source, 'mine', 'stop-tail', ['connector X9 put into W8']);
    expect(text.startsWith('# Adapted from stop-tail: connector X9 put into W8.\n')).toBe(true);
    expect(loaded(text).circuit.id).toBe('mine');
    expect(loaded(text).circuit.parts.get('X10')).toBeDefined();
  });

  test.each([
    ['fly to the moon', 'cannot start with "fly"'],
    ['set', 'missing after "set"'],
    ['set H9 watts 5 W', 'no part or wire called "H9"'],
    ['set F4 rating 10 V', 'is a voltage, not a current'],
    ['set F4 watts 10 W', 'watts'],
    ['set F4 type lamp', 'cannot be set here'],
    ['set S4 contacts 5', 'more than one value'],
    ['set W1 from {a: b}', 'cannot be set here'],
    ['connector X9', 'no wire called "X9"'],
    ['connector X3 in W8', 'X3 is there already'],
    ['connector in W8', 'has no id'],
    ['connector 9! in W8', 'cannot be used as a name'],
    ['lamp H9 SP3 GP3', 'missing after "lamp"'],
    ['lamp H9 bright SP3 GP3', 'neither watts nor a lamp'],
    ['lamp H9 P21/5W SP3 GP3', 'two filaments'],
    ['lamp H9 5 W SP99 GP3', 'no point "SP99"'],
    ['rename H1 H2', 'H2 is there already'],
    ['rename Q1 Q2', 'no part or wire called "Q1"'],
  ])('when "%s" is typed then it is refused and says why', (line, says) => {
    expect(refused(before, line)).toContain(says);
  });
});

test('when the file has Windows line ends, tabs of comments and flow lists then changes fit in', () => {
  const text = fromShelf('horn').source.replaceAll('\n', '\r\n');
  const after = changed(loaded(text), 'set F1 rating 15 A');
  expect(after.source).toBe(text.replace(/(F1: .*rating: )\d+ A/, '$115 A'));
  expect(
    loaded(
      changed(loaded(text), `connector X99 in ${loaded(text).circuit.wires[2]!.id}`).source,
    ).circuit.parts.has('X99'),
  ).toBe(true);
});
