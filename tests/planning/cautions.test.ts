/** What a person is warned of, step by step. The cautions are common practice in the trade, deferring to the maker's procedure. */
import { describe, expect, test } from 'vitest';
import type { Step } from '../../src/session/case.js';
import type { Action, Event, Reading } from '../../src/session/events.js';
import { atRest, type SetUp } from '../../src/session/setup.js';
import { CAUTION_TEXTS } from '../../src/planning/caution-texts.js';
import { cautionsFor } from '../../src/planning/cautions.js';
import { cautionCircuit as circuit } from './caution-circuit.js';

const rest = atRest(circuit);
const typed = { value: 1, step: 0.1 };
const did = (action: Action): Event => ({ type: 'did', action });
const found = (reading: Reading, when?: readonly (readonly [string, string])[]): Event => ({
  type: 'found',
  reading,
  ...(when === undefined ? {} : { when }),
});
const volts = (red: string, black = 'bat-', value = typed): Event =>
  found({ kind: 'volts', red, black, value });
const ohms = (red: string, black: string): Event => found({ kind: 'ohms', red, black, value: typed });
const lampsOn: SetUp = { ...rest, controls: new Map([...rest.controls, ['lamps', 'on']]) };
const running: SetUp = { ...rest, engine: 'running' };
const ids = (event: Event, setUp = rest, timeline: readonly Step[] = []): readonly string[] =>
  cautionsFor(circuit, setUp, event, { timeline })
    .map((caution) => caution.id)
    .sort();

const rows: readonly (readonly [title: string, event: Event, setUp: SetUp, expected: readonly string[]])[] = [
  ['volts at a plain point', volts('F1.2'), rest, []],
  ['volts at the battery posts', volts('bat+'), rest, []],
  ['a load is watched', found({ kind: 'load', load: 'H1', value: 'off' }), rest, []],
  ['jumper across the lamp switch', did({ do: 'jumper', between: ['S1.1', 'S1.2'] }), rest, ['jumper-fused']],
  [
    'jumper from feed to body',
    did({ do: 'jumper', between: ['F1.2', 'body'] }),
    rest,
    ['jumper-fused', 'jumper-short'],
  ],
  [
    'jumper between the battery posts',
    did({ do: 'jumper', between: ['bat+', 'bat-'] }),
    rest,
    ['battery-gas', 'jumper-fused', 'jumper-short'],
  ],
  [
    'jumper across the start button',
    did({ do: 'jumper', between: ['S2.1', 'S2.2'] }),
    rest,
    ['jumper-cranks', 'jumper-fused'],
  ],
  [
    'jumper across the fan switch',
    did({ do: 'jumper', between: ['S3.1', 'S3.2'] }),
    rest,
    ['jumper-fused', 'jumper-motion'],
  ],
  [
    'jumper that grounds a relay coil whose contact feeds a motor',
    did({ do: 'jumper', between: ['K1.85', 'body'] }),
    rest,
    ['jumper-fused', 'jumper-motion'],
  ],
  [
    'jumper to the fuel pump',
    did({ do: 'jumper', between: ['F1.2', 'M3.1'] }),
    rest,
    ['jumper-fuel', 'jumper-fused', 'never-probe'],
  ],
  [
    'start button pressed',
    did({ do: 'operate', control: 'start', position: 'crank' }),
    rest,
    ['control-cranks'],
  ],
  ['start button released', did({ do: 'operate', control: 'start', position: 'off' }), rest, []],
  [
    'gear put in reverse',
    did({ do: 'operate', control: 'gear', position: 'reverse' }),
    rest,
    ['control-motion'],
  ],
  ['pump primed', did({ do: 'operate', control: 'prime', position: 'on' }), rest, ['control-fuel']],
  [
    'fan switched on for one reading',
    found({ kind: 'load', load: 'M2', value: 'runs' }, [['fan', 'on']]),
    rest,
    ['control-fan'],
  ],
  ['ohms on a line the switch has made live', ohms('X1.1h', 'body'), lampsOn, ['ohms-live', 'roadside']],
  ['ohms on the same line, switch off', ohms('X1.1h', 'body'), rest, ['ohms-dead', 'roadside']],
  [
    'ohms on a live line, battery off',
    ohms('F1.2', 'body'),
    { ...rest, out: new Set(['G1']) },
    ['ohms-dead'],
  ],
  [
    'ohms across a lamp that is out',
    ohms('H1.1i', 'H1.31i'),
    { ...lampsOn, out: new Set(['H1']) },
    ['ohms-dead', 'roadside'],
  ],
  [
    'beep on the feed bar',
    found({ kind: 'continuity', red: 'SP1', black: 'F1.1', value: 'beep' }),
    rest,
    ['ohms-live'],
  ],
  ['current measured', found({ kind: 'amps', at: 'F1.1', value: typed }), rest, ['amps-series']],
  [
    'filament test lamp',
    found({ kind: 'test lamp', red: 'F1.2', black: 'body', value: 'lit', lamp: 'filament' }),
    rest,
    ['test-lamp-modules'],
  ],
  [
    'LED test lamp',
    found({ kind: 'test lamp', red: 'F1.2', black: 'body', value: 'lit', lamp: 'LED' }),
    rest,
    [],
  ],
  ['engine started', did({ do: 'engine', state: 'running' }), rest, ['engine-running']],
  [
    'battery taken out, engine running',
    did({ do: 'take out', part: 'G1' }),
    running,
    ['battery-engine', 'battery-gas'],
  ],
  ['fuse pulled, engine running', did({ do: 'take out', part: 'F1' }), running, ['fuse-engine']],
  ['fuse pulled, engine off', did({ do: 'take out', part: 'F1' }), rest, []],
  [
    'connector unplugged, engine running',
    did({ do: 'unplug', connector: 'X1' }),
    running,
    ['fuse-engine', 'roadside'],
  ],
  ['battery taken out', did({ do: 'take out', part: 'G1' }), rest, ['battery-gas']],
  ['new fuse fitted', did({ do: 'fit new', part: 'F1' }), rest, ['fuse-rating']],
  ['fuse repaired', did({ do: 'repair', at: 'F1', how: 'new one' }), rest, ['fuse-rating']],
  ['lamp taken out', did({ do: 'take out', part: 'H1' }), rest, ['hot', 'roadside']],
  ['horn ring connector unplugged', did({ do: 'unplug', connector: 'X9' }), rest, ['airbag']],
  ['volts in the steering column', volts('X9.1c'), rest, ['airbag']],
  ['volts on a part never to be probed', volts('X8.1h'), rest, ['airbag', 'never-probe']],
  ['volts on a wire never to be probed', volts('M3.1'), rest, ['never-probe']],
  ['look at a part never to be probed', found({ kind: 'look', at: 'X8', value: 'good' }), rest, ['airbag']],
  ['volts at the fan', volts('M2.1'), rest, ['fan-key-off']],
  ['volts at the ballast', volts('R9.1'), rest, ['ballast']],
  ['wiggle at a hot resistor', did({ do: 'wiggle', at: 'R8' }), rest, ['hot']],
  ['wiggle an orange wire', did({ do: 'wiggle', at: 'W10' }), rest, ['orange-cable']],
  ['clamp around a wire', found({ kind: 'clamp', at: 'W3', value: typed }), rest, []],
  [
    'clamp at a wire never to be probed',
    found({ kind: 'clamp', at: 'W16', value: typed }),
    rest,
    ['never-probe'],
  ],
  ['test lamp in place of a fuse', did({ do: 'lamp in place', part: 'F1' }), rest, ['lamp-in-place']],
  ['known-good fuse fitted', did({ do: 'fit known-good', part: 'F1' }), rest, ['fuse-rating']],
  ['lamps swapped', did({ do: 'swap', parts: ['H1', 'H1'] }), rest, ['hot', 'roadside']],
  ['breaker reset', did({ do: 'reset', part: 'F1' }), rest, ['reset-once']],
  ['the vehicle left alone', did({ do: 'wait', minutes: 30 }), rest, []],
  [
    'ohms behind a fuse with a lamp in its place',
    ohms('F1.2', 'body'),
    { ...rest, out: new Set(['F1']), lamps: new Set(['F1']) },
    ['ohms-live'],
  ],
  ['ohms behind a pulled fuse', ohms('F1.2', 'body'), { ...rest, out: new Set(['F1']) }, ['ohms-dead']],
  ['a reading of 300 V', volts('F1.2', 'bat-', { value: 300, step: 1 }), rest, ['high-voltage']],
];

describe('cautions', () => {
  test.each(rows)('when %s then exactly the right ones show', (_title, event, setUp, expected) => {
    expect(ids(event, setUp)).toEqual([...expected].sort());
  });

  test('when the last meter test was a current test then the sockets are named before the next one', () => {
    const amps: Step = {
      kind: 'finding',
      finding: {
        number: 2,
        at: '',
        setUp: rest,
        reading: { kind: 'amps', at: 'F1.1', value: typed },
        battery: undefined,
        symptom: 'present',
        evidence: 'measured',
        proved: true,
      },
    };
    expect(ids(volts('F1.2'), rest, [amps])).toEqual(['meter-sockets']);
  });

  test('when a reading was only told then nothing is cautioned', () => {
    expect(
      ids({
        type: 'found',
        evidence: 'told',
        reading: { kind: 'ohms', red: 'SP1', black: 'F1.1', value: 'OL' },
      }),
    ).toEqual([]);
  });

  test('when the solved network says the line is dead then ohms is not stopped', () => {
    const shown = cautionsFor(circuit, lampsOn, ohms('X1.1h', 'body'), { live: false });
    expect(shown.map((caution) => caution.id)).toContain('ohms-dead');
    expect(shown.some((caution) => caution.stop)).toBe(false);
  });

  test('when the system is above 60 V then every step is refused', () => {
    const shown = cautionsFor({ ...circuit, nominalVolts: 400 }, rest, volts('F1.2'));
    expect(shown[0]).toMatchObject({ id: 'high-voltage', refused: true, stop: true });
  });

  test('when several show then the gravest comes first', () => {
    const shown = cautionsFor(circuit, rest, volts('X8.1h'));
    expect(shown.map((caution) => caution.id)).toEqual(['never-probe', 'airbag']);
  });

  test('when printed on any terminal then the texts are plain ASCII', () => {
    for (const [, text] of Object.values(CAUTION_TEXTS)) expect(text).toMatch(/^[\x20-\x7e]+$/);
  });
});
