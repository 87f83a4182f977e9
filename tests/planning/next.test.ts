import { beforeAll, describe, expect, test } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.js';
import { TEST_COSTS } from '../../src/circuit/costs.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { createWorkbench } from '../../src/diagnosis/workbench.js';
import { advise, suggest } from '../../src/planning/next.js';
import type { Suggestion } from '../../src/planning/suggestion.js';
import { edit } from '../../src/session/actions.js';
import type { Recorded } from '../../src/session/events.js';
import { foldCase } from '../../src/session/fold.js';
import { parseLine } from '../../src/session/parse-line.js';
import { recordedOf, workbenchOf } from '../diagnosis/session-of.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await workbenchOf('stop-tail');
}, 60_000);

const oneLamp = ['fails H1.54 when pedal down', 'works H2.54 H3 when pedal down'];

function suggestions(lines: readonly string[]): readonly Suggestion[] {
  const session = foldCase(bench.circuit, recordedOf(bench, lines));
  return suggest(bench, session, diagnose(bench, session));
}

/** Does what is suggested, answered in turn; gives every suggestion made and what is left at the end. */
function follow(lines: readonly string[], answer: (suggestion: Suggestion) => string, most: number) {
  const recorded: Recorded[] = recordedOf(bench, lines);
  const made: Suggestion[] = [];
  while (made.length < most) {
    const session = foldCase(bench.circuit, recorded);
    const [best] = suggest(bench, session, diagnose(bench, session));
    if (best === undefined) break;
    made.push(best);
    for (const line of [...best.first, `${best.line} ${answer(best)}`]) {
      const parsed = parseLine(line, bench.circuit, recorded);
      if (parsed.kind !== 'events') throw new Error(`${line}: ${JSON.stringify(parsed)}`);
      for (const event of parsed.events) recorded.push({ number: recorded.length + 1, at: '', event });
    }
  }
  return { made, left: diagnose(bench, foldCase(bench.circuit, recorded)).groups };
}

test('when the complaint is gone after a repair then no repair is tried again', async () => {
  const horn = await workbenchOf('horn');
  const recorded = recordedOf(horn, [
    ...['horn button pressed', 'B1 silent', 'B2 silent', 'K1 clicks', 'prove volts', 'volts K1.87 12.1'],
    ...['volts GP3 11.9', 'clean GP3', 'B1 sounds'],
  ]);
  const session = foldCase(horn.circuit, recorded);
  const diagnosis = diagnose(horn, session);
  expect(diagnosis.groups.length).toBeGreaterThan(1);
  const gone = advise(horn, session, diagnosis);
  expect(gone.attempt).toBeUndefined();
  expect(gone.tests.length).toBeGreaterThan(0);
  expect(advise(horn, session, { ...diagnosis, gone: false }).attempt).toBeDefined();
});

test('when nothing was found wrong then nothing is suggested', () => {
  expect(suggestions(['works H1.54 H2.54 H3 when pedal down'])).toEqual([]);
});

test('when one lamp of several is dead then the tests differ and each says what its outcomes leave', () => {
  const list = suggestions(oneLamp);
  expect(list.length).toBeGreaterThan(1);
  expect(new Set(list.map(({ first, line }) => [...first, line].join())).size).toBe(list.length);
  for (const { outcomes, gain, minutes } of list) {
    expect(outcomes.length).toBeGreaterThan(1);
    expect(outcomes.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1, 1);
    expect(gain).toBeGreaterThan(0);
    expect(minutes).toBeGreaterThan(0);
  }
});

test('when the steps of a suggestion are typed then its actions and reading are recorded', () => {
  for (const suggestion of suggestions(oneLamp)) {
    const recorded = recordedOf(bench, [...oneLamp, ...suggestion.first]);
    const done = recorded.slice(recordedOf(bench, oneLamp).length).map(({ event }) => event);
    expect(done.map((event) => ('action' in event ? event.action : event))).toEqual(suggestion.actions);
    const { now } = foldCase(bench.circuit, recordedOf(bench, oneLamp));
    expect(suggestion.actions.reduce((setUp, action) => edit(action, setUp), now)).toEqual(suggestion.setUp);
  }
});

test('when a complaint is only dim, which a low battery might explain, then tests are suggested all the same', () => {
  expect(suggestions(['H2.58 dim when lights on']).length).toBeGreaterThan(0);
});

test('when all stop lamps are dead then one listens to the horn on the same fuse before a meter is picked up', () => {
  const [first] = suggestions(['fails H1.54 H2.54 H3 when pedal down']);
  expect([...first!.first, first!.line]).toEqual(['horn button pressed', 'B1']);
});

test('when a suggested test was skipped then it is not suggested again', () => {
  const [first] = suggestions(oneLamp);
  const again = suggestions([...oneLamp, ...first!.first, `skip ${first!.line}: cannot reach`]);
  expect(again.map(({ line }) => line)).not.toContain(first!.line);
});

describe('the left stop filament is broken and every reading is as that would have it', () => {
  const answer = ({ reading, setUp }: Suggestion): string => {
    const live = setUp.controls.get('pedal') === 'down' && setUp.unplugged.size === 0 && setUp.out.size === 0;
    switch (reading.kind) {
      case 'load': {
        const lit = { 54: setUp.controls.get('pedal') === 'down', 58: setUp.controls.get('lights') === 'on' };
        if (reading.load === 'H1.54') return 'off';
        if (reading.load === 'B1')
          return setUp.controls.get('horn button') === 'pressed' ? 'sounds' : 'silent';
        const filament = reading.load === 'H3' || reading.load.endsWith('.54') ? 54 : 58;
        return lit[filament] ? 'lit' : 'off';
      }
      case 'volts': {
        if (!live) return '0.00';
        const fed = [reading.red, reading.black].map((point) =>
          /^(bat\+|G1\.30|SP[123]|F[46]\.\d|F4\.2|S4\.\d|X1\.1.|X[345]\.1.|H[123]\.(54|1))$/.test(point),
        );
        return fed[0] === fed[1] ? '0.02' : fed[0] ? '12.30' : '-12.30';
      }
      case 'ohms':
        return reading.red.startsWith('H1.54') || reading.red === 'X3.1c' ? 'OL' : '0.3';
      default:
        return 'off';
    }
  };

  test('when the program alone chooses the tests then it comes down to the lamp and asks nothing twice', () => {
    const start = [...oneLamp, 'prove volts', 'prove ohms'];
    const { made, left } = follow(start, answer, 20);
    expect(made.length).toBeLessThan(20);
    expect(left[0]!.repair.how).toBe('replace H1 (left stop and tail lamp)');
    expect(left[0]!.share).toBeGreaterThan(0.9);
    const asked = made.map(({ line, setUp }) =>
      JSON.stringify([line, [...setUp.controls], [...setUp.unplugged], [...setUp.out]]),
    );
    expect(new Set(asked).size).toBe(asked.length);
  });
});

describe('trying a repair', () => {
  const adviceOn = (lines: readonly string[]) => {
    const session = foldCase(bench.circuit, recordedOf(bench, lines));
    const diagnosis = diagnose(bench, session);
    return { ...advise(bench, session, diagnosis), diagnosis };
  };

  test('when every test takes an hour then a repair is tried first, said to be right in so many cases', () => {
    const hour = Object.fromEntries(Object.keys(TEST_COSTS).map((test) => [test, 60]));
    const slow = createWorkbench({ ...bench.circuit, costs: hour });
    const session = foldCase(
      slow.circuit,
      recordedOf(slow, [...oneLamp, 'volts H1.54 H1.31 12.3 when pedal down']),
    );
    const diagnosis = diagnose(slow, session);
    const { attempt, tests } = advise(slow, session, diagnosis);
    expect(diagnosis.groups.length).toBeGreaterThan(1);
    expect(attempt!.chance).toBeCloseTo(diagnosis.groups[attempt!.group]!.share, 10);
    expect(tests.length).toBeGreaterThan(0);
    for (const { expectedMinutes } of tests)
      expect(attempt!.expectedMinutes).toBeLessThanOrEqual(expectedMinutes ?? Infinity);
  });

  test('when many repairs are about as likely then a test goes first, and the others are no shorter a road', () => {
    const { attempt, tests } = adviceOn(oneLamp);
    expect(attempt).toBeUndefined();
    for (const { expectedMinutes } of tests.slice(1))
      // Among near equals the one that disturbs nothing goes first.
      expect(expectedMinutes! * 1.05 + 0.2).toBeGreaterThanOrEqual(tests[0]!.expectedMinutes!);
  });

  test('when a repair is hardly sooner tried than the next test done then the test goes first', async () => {
    const horn = await workbenchOf('horn');
    const lines = [
      'fails B1 B2 when horn button pressed',
      'works H1 when bonnet open',
      'K1 clicks when horn button pressed',
      'prove volts',
      'horn button pressed',
      'bonnet open',
      'H1 lit',
      'volts K1.87 0.02',
      'volts K1.30 12.4',
      'volts K1.85 K1.87 0.0',
    ];
    const session = foldCase(horn.circuit, recordedOf(horn, lines));
    const { attempt, tests } = advise(horn, session, diagnose(horn, session, { fit: true }));
    expect(tests.length).toBeGreaterThan(0);
    expect(attempt).toBeUndefined();
  });

  test('when one repair is left then it is the only one, however it is asked', () => {
    const { attempt, diagnosis } = adviceOn([...oneLamp, 'out H1', 'prove ohms', 'ohms H1.54i H1.31i OL']);
    expect(diagnosis.groups.length).toBe(1);
    expect(attempt).toMatchObject({ group: 0, chance: 1 });
  });
});

test('when a fuse has volts on one side only then it is taken out, however many looks in other positions cost less', async () => {
  const lamps = await workbenchOf('headlamps-relay');
  const lines = [
    'lights side',
    'beam main',
    'fails H3 K1 K2 H1 H2 H4 H5 H6',
    'fails H3 H6 when beam dipped',
    'prove volts',
    'volts F5.1 11.74',
    'volts F5.2 0.00',
    'lights head',
    'see K2 silent',
    'see H1 off',
    'see H4 off',
    'beam dipped',
    'see K1 silent',
    'beam main',
  ];
  const session = foldCase(lamps.circuit, recordedOf(lamps, lines));
  const made = suggest(lamps, session, diagnose(lamps, session));
  expect(made.map(({ line }) => line)).toContain('ohms F5.1i F5.2i');
});

test('when all that is left lies in a place not yet open then it is opened, however cheap a test elsewhere is', async () => {
  const starter = await workbenchOf('starter-24v');
  const lines = [
    'master switch on',
    'gear neutral',
    'key start',
    'fails M1',
    'see H1 lit',
    'see K1 clicks',
    'see K2 clicks',
    'prove volts',
    'volts bat+ F2.2 0.27',
    'volts bat+ K1.87 0.37',
    'clamp W5 9.0',
    'volts GP3 bat- 0.01',
    'volts bat+ SP3 0.0',
  ];
  const session = foldCase(starter.circuit, recordedOf(starter, lines));
  const [best] = suggest(starter, session, diagnose(starter, session));
  expect(best!.line).toMatch(/K2\.|M1\./);
});

describe('safety', () => {
  test('when ohms are suggested then the line is dead', () => {
    const { made } = follow(
      ['fails H1.58 H2.58 H4 when lights on', 'out F6', 'look F6 blown', 'prove ohms', 'prove volts'],
      ({ reading }) => ({ ohms: '0.1', volts: '0.00', clamp: '0.0' })[reading.kind as string] ?? 'off',
      5,
    );
    const ohms = made.filter(({ reading }) => reading.kind === 'ohms');
    expect(ohms.length).toBeGreaterThan(0);
    for (const { cautions } of ohms) {
      expect(cautions.map(({ id }) => id)).not.toContain('ohms-live');
      expect(cautions.some(({ refused }) => refused)).toBe(false);
    }
  });
});
