import { beforeAll, expect, test } from 'vitest';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { actionsBetween, lineOf } from '../../src/planning/changes.js';
import { edit } from '../../src/session/actions.js';
import { parseLine } from '../../src/session/parse-line.js';
import { refuse } from '../../src/session/refuse.js';
import type { Recorded } from '../../src/session/events.js';
import { atRest, KNOWN_GOOD, type SetUp } from '../../src/session/setup.js';
import { workbenchOf } from '../diagnosis/session-of.js';

let bench: Workbench;
let setUps: ReadonlyMap<string, SetUp>;
beforeAll(async () => {
  bench = await workbenchOf('stop-tail');
  const rest = atRest(bench.circuit);
  const down = new Map(rest.controls).set('pedal', 'down');
  setUps = new Map<string, SetUp>([
    ['rest', rest],
    ['pedal down', { ...rest, controls: down }],
    ['unplugged', { ...rest, unplugged: new Set(['X3', 'X5']), out: new Set(['F4']) }],
    ['jumper', { ...rest, controls: down, jumpers: [['S4.1', 'S4.2']] }],
    [
      'swapped',
      {
        ...rest,
        fitted: new Map([
          ['H1', 'H2'],
          ['H2', 'H1'],
        ]),
      },
    ],
    ['known-good', { ...rest, controls: down, fitted: new Map([['H1', KNOWN_GOOD]]) }],
    ['lamp', { ...rest, controls: down, out: new Set(['F4']), lamps: new Set(['F4']) }],
    ['asleep', { ...rest, rested: 30 }],
  ]);
}, 60_000);

const names = ['rest', 'pedal down', 'unplugged', 'jumper', 'swapped', 'known-good', 'lamp', 'asleep'];
/** Waking the electronics up takes some step or other: nothing to do for it alone. */
const ways = names
  .flatMap((from) => names.map((to) => [from, to] as const))
  .filter(([from, to]) => from !== 'asleep' || to !== 'rest');

test.each(ways)(
  'when a test leads from %s to %s then each step may be done and the set-up is reached',
  (from, to) => {
    let setUp = setUps.get(from)!;
    for (const action of actionsBetween(setUp, setUps.get(to)!)) {
      expect(refuse(action, setUp, bench.circuit), lineOf(action)).toBeUndefined();
      setUp = edit(action, setUp);
    }
    expect(setUp).toEqual(setUps.get(to));
  },
);

test.each(ways)(
  'when the steps from %s to %s are typed then they are understood as those steps',
  (from, to) => {
    const recorded: Recorded[] = [];
    const take = (setUp: SetUp, next: SetUp) => {
      for (const action of actionsBetween(setUp, next)) {
        const line = parseLine(lineOf(action), bench.circuit, recorded);
        if (line.kind !== 'events') throw new Error(`${lineOf(action)}: ${JSON.stringify(line)}`);
        expect(line.events.map((event) => ('action' in event ? event.action : event))).toEqual([action]);
        for (const event of line.events) recorded.push({ number: recorded.length + 1, at: '', event });
      }
    };
    take(setUps.get('rest')!, setUps.get(from)!);
    take(setUps.get(from)!, setUps.get(to)!);
  },
);
