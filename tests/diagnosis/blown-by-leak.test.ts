/** A fuse that is blown, and another fault beside what blew it: mere dampness did not, and what is there now was there then. */
import { expect, test } from 'vitest';
import { gather } from '../../src/diagnosis/evidence.js';
import { judge } from '../../src/diagnosis/verdict.js';
import { foldCase } from '../../src/session/fold.js';
import { recordedOf, workbenchOf } from './session-of.js';

const lines = [
  ...[
    'lights on',
    'beam main',
    'H2.56a off',
    'H1.56a lit',
    'prove volts',
    'volts F2.2 0.02',
    'volts F2.1 11.4',
  ],
  ...['beam dipped', 'H1.56b off', 'H2.56b lit', 'volts F3.1 1.16', 'lights off', 'unplug X2', 'prove ohms'],
];

test.each([
  ['OL', false],
  ['0.1', true],
])(
  'when the blown circuit of a lamp reads %s to body beside another fault then a short at the lamp stays suspected: %s',
  async (ohms, stays) => {
    const bench = await workbenchOf('headlamps-switch');
    const pair = ['H2.56a short', 'SP3/W9 resistance'].map((id) =>
      bench.faults.find((fault) => fault.id === id)!,
    );
    const recorded = recordedOf(bench, [...lines, `ohms X2.56ac body ${ohms}`]);
    const { fall } = judge(bench, pair, gather(bench, foldCase(bench.circuit, recorded)));
    expect(fall === undefined).toBe(stays);
  },
);
