/** A module that says nothing of what it draws: only a load of one's own tells a good joint before it from a bad one. */
import { beforeAll, expect, test } from 'vitest';
import { gather } from '../../src/diagnosis/evidence.js';
import { judge } from '../../src/diagnosis/verdict.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { foldCase } from '../../src/session/fold.js';
import { recordedOf, workbenchOf } from './session-of.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await workbenchOf('can-pair');
});

/** Most ohms that a place may still have after one reading at the supply and ground of the dead tail module; none: it fell. */
function mostOhms(id: string, reading: string): number | undefined {
  const lines = ['pedal down', 'H2 off', 'prove volts', 'volts bat+ bat- 12.50', reading];
  const evidence = gather(bench, foldCase(bench.circuit, recordedOf(bench, lines)));
  const fault = bench.faults.find((one) => one.id === id)!;
  return judge(bench, [fault], evidence).severity[0]?.high;
}

test.each(['X2.1 resistance', 'F3.1 resistance', 'GP4 resistance', 'X3.2 resistance'])(
  'when bare volts are full then %s may be bad all the same, and when they are full with a lamp across hardly',
  (joint) => {
    expect(mostOhms(joint, 'volts A3.30 A3.31 12.48/12.50')).toBeGreaterThan(50);
    // A third of an ampere through 2 ohm takes 0.7 V.
    expect(mostOhms(joint, 'volts loaded A3.30 A3.31 12.48/12.50') ?? 0).toBeLessThan(3);
  },
);

test.each(['A3.30 resistance', 'A3.31 resistance'])(
  'when the lamp hangs before a joint then %s is not cleared by it',
  (joint) => {
    expect(mostOhms(joint, 'volts loaded A3.30 A3.31 12.48/12.50')).toBeGreaterThan(1e6);
  },
);
