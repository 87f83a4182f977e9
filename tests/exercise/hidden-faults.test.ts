/** Severities that are drawn for a simulated vehicle. */
import { expect, test } from 'vitest';
import { drawSeverity } from '../../src/exercise/hidden-faults.js';
import { random } from '../../src/exercise/random.js';
import { workbenchOf } from '../diagnosis/session-of.js';

const DRAWS = 50;

test('when severities are drawn then they lie on the scale of the fault, and none at which its wire would have burnt', async () => {
  const { faults } = await workbenchOf('accessory-socket');
  const draw = random(1);
  expect(faults.some(({ burnsBelow }) => burnsBelow !== undefined)).toBe(true);
  for (const fault of faults.filter(({ scale }) => scale.unit !== 'none')) {
    const { edges } = fault.scale;
    const drawn = Array.from({ length: DRAWS }, () => drawSeverity(fault, draw));
    expect(Math.min(...drawn)).toBeGreaterThanOrEqual(Math.max(edges[0]!, fault.burnsBelow ?? -Infinity));
    expect(Math.max(...drawn)).toBeLessThanOrEqual(edges.at(-1)! * (1 + 1e-9));
  }
});

test('when a short is behind a fuse then a dead one is drawn as the usual case', async () => {
  const { faults } = await workbenchOf('accessory-socket');
  const fault = faults.find(({ id }) => id === 'F2.2 short')!;
  const draw = random(2);
  const dead = Array.from({ length: DRAWS }, () => drawSeverity(fault, draw)).filter(
    (ohms) => ohms === fault.scale.edges[0],
  );
  expect(dead.length).toBeGreaterThan(DRAWS / 10);
});
