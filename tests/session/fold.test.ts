import { describe, expect, test } from 'vitest';
import fc from 'fast-check';
import { edit, touches } from '../../src/session/actions.js';
import type { Case, Finding } from '../../src/session/case.js';
import type { Event, Recorded } from '../../src/session/events.js';
import { foldCase } from '../../src/session/fold.js';
import { atRest } from '../../src/session/setup.js';
import { bench, recordLines } from './bench-circuit.js';

const fold = (...lines: string[]): Case => foldCase(bench, recordLines(lines));
const findings = (folded: Case): readonly Finding[] =>
  folded.timeline.flatMap((step) => (step.kind === 'finding' ? [step.finding] : []));
/** Numbers of the events in the order in which they were observed. */
const order = (folded: Case): readonly number[] =>
  folded.timeline.map((step) => (step.kind === 'finding' ? step.finding.number : step.number));

describe('set-up', () => {
  test('when nothing was done then everything is at rest', () => {
    expect(fold().now).toEqual(atRest(bench));
    expect(fold().now.controls.get('gear')).toBe('neutral');
  });

  test('when actions follow each other then every finding keeps the set-up it was taken in', () => {
    const [first, second, third] = findings(
      fold(
        'H1 off',
        'gear reverse',
        'unplug X3',
        'volts X3.1h 12.4',
        'plug X3',
        'out F4',
        'jumper S1',
        'H1 off',
      ),
    );
    expect(first!.setUp).toEqual(atRest(bench));
    expect(second!.setUp).toMatchObject({ unplugged: new Set(['X3']), out: new Set(), jumpers: [] });
    expect(second!.setUp.controls.get('gear')).toBe('reverse');
    expect(third!.setUp).toMatchObject({
      unplugged: new Set(),
      out: new Set(['F4']),
      jumpers: [['S1.1', 'S1.2']],
    });
  });

  test('when a finding says when then that holds for the finding alone', () => {
    const folded = fold('fails H1 when gear reverse, engine running', 'H1 off');
    const [first, second] = findings(folded);
    expect(first!.setUp.controls.get('gear')).toBe('reverse');
    expect(first!.setUp.engine).toBe('running');
    expect(second!.setUp).toEqual(atRest(bench));
    expect(folded.now).toEqual(atRest(bench));
  });
});

describe('order', () => {
  test('when a finding is typed late then it stands before the event named, in the set-up of that time', () => {
    const folded = fold(
      'key on',
      'unplug X3',
      'volts X3.1h 12.4',
      'late 2 volts X3.1h 11.9',
      'late 2 H1 off',
    );
    expect(order(folded)).toEqual([1, 4, 5, 2, 3]);
    expect(findings(folded).map((finding) => finding.setUp.unplugged.size)).toEqual([0, 0, 1]);
  });

  test('when a late action is put in then it counts for what follows it', () => {
    const folded = fold('H1 off', 'H3 off', 'late 2 gear reverse');
    expect(order(folded)).toEqual([1, 3, 2]);
    expect(findings(folded).map((finding) => finding.setUp.controls.get('gear'))).toEqual([
      'neutral',
      'reverse',
    ]);
    expect(folded.now.controls.get('gear')).toBe('reverse');
  });

  test('when late entries are late for each other then they nest', () => {
    expect(order(fold('H1 off', 'late 1 H1 dim', 'late 2 H1 lit'))).toEqual([3, 2, 1]);
  });

  test('when the event that a late entry stands before is undone then the entry keeps its place', () => {
    const folded = fold('key on', 'unplug X3', 'H1 off', 'late 2 volts X3.1h 11.9', 'undo 2');
    expect(order(folded)).toEqual([1, 4, 3]);
    expect(folded.now.unplugged.size).toBe(0);
  });
});

describe('undo', () => {
  test('when an action is undone then later findings were taken without it', () => {
    const [finding] = findings(fold('gear reverse', 'H1 off', 'undo 1'));
    expect(finding!.setUp.controls.get('gear')).toBe('neutral');
  });

  test('when an undo is undone, and that undo too, then the event comes and goes', () => {
    expect(order(fold('H1 off', 'undo'))).toEqual([]);
    expect(order(fold('H1 off', 'undo', 'undo 2'))).toEqual([1]);
    expect(order(fold('H1 off', 'undo', 'undo 2', 'undo 3'))).toEqual([]);
  });

  test('when the opening or a number that is to come stands in an undo then nothing happens', () => {
    const undone = (number: number, target: number): Recorded => ({
      number,
      at: '',
      event: { type: 'undone', number: target },
    });
    expect(order(foldCase(bench, [...recordLines(['H1 off']), undone(2, 2), undone(3, 9)]))).toEqual([1]);
  });

  test('when notes, assumptions, proofs and the cause are undone then they are gone', () => {
    const lines = [
      'note x',
      'assume F4',
      'prove volts',
      'cause F4 blown',
      'done',
      'skip volts F4.1: no tool',
    ];
    const before = fold(...lines);
    expect(before).toMatchObject({
      assumed: ['F4'],
      notes: [{ number: 1, text: 'x' }],
      skipped: [{ test: 'volts F4.1' }],
    });
    expect(before.concluded).toMatchObject({ number: 4, at: 'F4', words: 'blown' });
    const after = fold(...lines, ...lines.map(() => 'undo'));
    expect(after).toMatchObject({ assumed: [], notes: [], skipped: [], closed: false, concluded: undefined });
    expect(after.proofs.size).toBe(0);
  });
});

describe('symptom', () => {
  test('when nothing is said then the complaint was there, and what is said sticks', () => {
    const folded = fold('H1 off', 'H1 lit symptom absent', 'H1 lit', 'symptom present', 'H1 off');
    expect(findings(folded).map((finding) => finding.symptom)).toEqual([
      'present',
      'absent',
      'absent',
      'present',
    ]);
    expect(folded.symptom).toBe('present');
  });

  test('when a finding is typed late then it takes the symptom of its own time', () => {
    const folded = fold('H1 off', 'wiggle W3', 'H1 lit symptom absent', 'late 2 H3 off');
    expect(findings(folded).map((finding) => [finding.number, finding.symptom])).toEqual([
      [1, 'present'],
      [4, 'present'],
      [3, 'absent'],
    ]);
  });
});

describe('proof of zeros', () => {
  const proved = (...lines: string[]): boolean => findings(fold(...lines))[0]!.proved;

  test.each([
    'volts X3.1h 0.00',
    'volts X3.1h 0.04',
    'volts X3.1h -0.03',
    'volts X3.1h 1',
    'ohms X3.2h body OL',
    'beep X3.2h body no',
    'amps W3 0.00',
    'testlamp X3.1h off',
  ])('when %j is all there is then it is not proved', (line) => expect(proved(line)).toBe(false));

  test.each([
    'volts X3.1h 0.06',
    'volts X3.1h 1.0',
    'ohms X3.2h body 4000',
    'beep X3.2h body yes',
    'amps W3 0.01',
    'testlamp X3.1h dim',
    'H1 off',
    'F4 good',
  ])('when %j is all there is then it needs no proof', (line) => expect(proved(line)).toBe(true));

  test.each([
    ['volts X3.1h 0.0', 'prove volts'],
    ['volts X3.1h 0.0', 'volts bat+ 6.0'],
    ['volts X3.1h 0.0', 'volts bat- bat+ -12.6'],
    ['ohms X3.2h body OL', 'prove ohms'],
    ['ohms X3.2h body OL', 'beep X3.1h X3.2h yes'],
    ['beep X3.2h body no', 'ohms X3.2h body 9.9'],
    ['amps W3 0.0', 'amps W1 0.5'],
    ['testlamp X3.1h off', 'testlamp bat+ lit'],
  ])('when %j is followed by %j then it is proved', (line, proof) => {
    expect(proved(line, proof)).toBe(true);
    expect(proved(line, proof, 'undo')).toBe(false);
  });

  test.each([
    ['volts X3.1h 0.0', 'volts bat+ 5.9'],
    ['volts X3.1h 0.0', 'prove ohms'],
    ['volts X3.1h 0.0', 'testlamp bat+ lit'],
    ['ohms X3.2h body OL', 'ohms X3.2h body 10'],
    ['testlamp X3.1h off', 'testlamp bat+ dim'],
  ])('when %j is followed by %j then it is still not proved', (line, other) =>
    expect(proved(line, other)).toBe(false),
  );
});

describe('the rest', () => {
  test('when answers for the head come in pieces then they are joined', () => {
    expect(fold('complaint none', 'complaint no lamps', 'history sudden', 'history rain').concern).toEqual({
      complaint: 'no lamps',
      history: ['sudden', 'rain'],
    });
  });

  test('when something is done after closing then the session is open again', () => {
    expect(fold('H1 off', 'done').closed).toBe(true);
    expect(fold('H1 off', 'done', 'note kept the old part').closed).toBe(true);
    expect(fold('H1 off', 'done', 'H1 lit').closed).toBe(false);
  });

  test('when the session was opened on a circuit then program, circuit and times are kept', () => {
    const opened: Event = {
      type: 'opened',
      format: 1,
      program: '0.1.0',
      circuit: { id: 'bench', hash: 'ab', file: 'bench.yaml' },
    };
    const folded = foldCase(bench, [
      { number: 1, at: '2024-05-06T10:00:00Z', event: opened },
      { number: 2, at: '2024-05-06T10:05:00Z', event: { type: 'paused' } },
    ]);
    expect(folded).toMatchObject({
      program: '0.1.0',
      circuit: { id: 'bench', hash: 'ab', file: 'bench.yaml' },
      startedAt: '2024-05-06T10:00:00Z',
      lastAt: '2024-05-06T10:05:00Z',
    });
  });
});

describe('touches', () => {
  test.each<[Parameters<typeof touches>[0], readonly string[]]>([
    [{ do: 'operate', control: 'gear', position: 'reverse' }, ['S1']],
    [{ do: 'engine', state: 'running' }, []],
    [{ do: 'unplug', connector: 'X3' }, ['X3']],
    [{ do: 'plug', connector: 'X3' }, ['X3']],
    [{ do: 'take out', part: 'H2' }, ['H2', 'H2.54', 'H2.58', 'H2.31']],
    [{ do: 'fit new', part: 'F4' }, ['F4', 'F4.1', 'F4.2']],
    [{ do: 'jumper', between: ['S1.1', 'S1.2'] }, ['S1.1', 'S1.2']],
    [{ do: 'clean', at: 'GP1' }, ['GP1']],
    [{ do: 'wiggle', at: 'W3' }, ['W3', 'SP1', 'S2.30']],
    [{ do: 'reseat', at: 'X3.1' }, ['X3.1']],
    [{ do: 'repair', at: 'F4', how: 'cleaned' }, ['F4', 'F4.1', 'F4.2']],
  ])('when %j is done then exactly these are touched', (action, names) =>
    expect([...touches(action, bench)].sort()).toEqual([...names].sort()),
  );

  test('when an action and its opposite are done then the set-up is as before', () => {
    const rest = atRest(bench);
    const there = edit({ do: 'unplug', connector: 'X3' }, edit({ do: 'take out', part: 'F4' }, rest));
    const back = edit({ do: 'plug', connector: 'X3' }, edit({ do: 'refit', part: 'F4' }, there));
    expect(back).toEqual(rest);
    expect(there.out).toEqual(new Set(['F4']));
    expect(rest.out.size).toBe(0);
  });
});

describe('any session', () => {
  const lines = [
    'key on',
    'key off',
    'unplug X3',
    'H1 off',
    'volts X3.1h 0.0',
    'volts bat+ 12.6',
    'note x',
    'symptom absent',
  ];
  const event: fc.Arbitrary<Event> = fc.oneof(
    fc.constantFrom(...lines).map((line) => {
      const [first] = recordLines(line === 'key off' ? ['key on', line] : [line]).slice(-1);
      return first!.event;
    }),
    fc.nat(12).map((number): Event => ({ type: 'undone', number })),
  );
  const late = fc
    .tuple(event, fc.option(fc.nat(12), { nil: undefined }))
    .map(([one, before]): Event =>
      (one.type === 'found' || one.type === 'did') && before !== undefined ? { ...one, before } : one,
    );
  const sessions = fc
    .array(late, { maxLength: 12 })
    .map((events) => events.map((one, i): Recorded => ({ number: i + 1, at: '', event: one })));

  test('when the last event is undone then the case is as if it had never been', () => {
    fc.assert(
      fc.property(sessions, late, (before, more) => {
        fc.pre(more.type !== 'undone');
        const number = before.length + 1;
        const undone: Recorded[] = [
          ...before,
          { number, at: '', event: more },
          { number: number + 1, at: '', event: { type: 'undone', number } },
        ];
        const strip = ({ timeline, now, symptom, proofs, notes }: Case) => ({
          timeline,
          now,
          symptom,
          proofs,
          notes,
        });
        // An undo in `before` may name the number that is given out only now.
        fc.pre(!before.some(({ event: one }) => 'number' in one && one.number >= number));
        fc.pre(!before.some(({ event: one }) => 'before' in one && (one.before ?? 0) >= number));
        expect(strip(foldCase(bench, undone))).toEqual(strip(foldCase(bench, before)));
      }),
      { seed: 20, numRuns: 300 },
    );
  });

  test('when a session is folded then the last set-up is that of the actions in order', () => {
    fc.assert(
      fc.property(sessions, (recorded) => {
        const folded = foldCase(bench, recorded);
        const actions = folded.timeline.flatMap((step) => (step.kind === 'action' ? [step.action] : []));
        expect(folded.now).toEqual(actions.reduce((setUp, action) => edit(action, setUp), atRest(bench)));
      }),
      { seed: 21, numRuns: 300 },
    );
  });
});
