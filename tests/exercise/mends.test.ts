/** What a new item mends: what sits in its housing, not what sits in the holder it plugs into. */
import { expect, test } from 'vitest';
import type { Fault } from '../../src/diagnosis/faults.js';
import { isMendedBy } from '../../src/diagnosis/mended-by.js';
import { mendedBy } from '../../src/exercise/mends.js';
import { random } from '../../src/exercise/random.js';
import { renewal, repairAction } from '../../src/exercise/repair-action.js';
import { SimulatedCar } from '../../src/exercise/simulated-car.js';
import { SolverPhysics } from '../../src/exercise/solver-car.js';
import { atRest } from '../../src/session/setup.js';
import { workbenchOf } from '../diagnosis/session-of.js';

test.each([
  ['S5', 'S5.2 short', true],
  ['B1', 'B1.1 short', true],
  ['F4', 'F4.2 short', false],
  ['H1', 'H1.54 short', false],
])('when a new %s is fitted then %s is gone with the old one: %s', async (part, id, gone) => {
  const bench = await workbenchOf('stop-tail');
  const fault = bench.faults.find((one) => one.id === id)!;
  const action = { do: 'fit new', part } as const;
  expect(mendedBy(bench, action).includes(fault)).toBe(gone);
  expect(repairAction(bench, fault).do).toBe(gone ? 'fit new' : 'repair');
  const hidden = { fault, severity: 0.001, comesAndGoes: false };
  const car = new SimulatedCar(bench, new SolverPhysics(), random(1), [hidden], false);
  await car.act(action, atRest(bench.circuit));
  expect(car.hidden).toHaveLength(gone ? 0 : 1);
});

test('when a fuse holder leaks to body then its repair is not that of a blown fuse', async () => {
  const bench = await workbenchOf('stop-tail');
  const [blown, holder] = ['F4:link open', 'F4.2 short'].map((id) =>
    bench.faults.find((one) => one.id === id)!,
  );
  expect(holder!.repair.how).not.toBe(blown!.repair.how);
  expect(holder!.label).toContain('holder');
});

test('when a module has shut an output down then it is reset, not renewed, and a blown fuse is renewed', async () => {
  expect(renewal(await workbenchOf('can-pair'), 'A3').do).toBe('reset');
  expect(renewal(await workbenchOf('stop-tail'), 'F4').do).toBe('fit new');
});

test('when a terminal has a letter at its end then cleaning it mends it, and a side of a connector pin stands for the pin', () => {
  const joint = (site: string) =>
    ({ contact: true, owner: 'position', part: site.split('.')[0]!, site }) as Fault;
  expect(isMendedBy({ do: 'clean', at: 'M2.53c' }, joint('M2.53c'))).toBe(true);
  expect(isMendedBy({ do: 'clean', at: 'X3.1h' }, joint('X3.1'))).toBe(true);
  expect(isMendedBy({ do: 'clean', at: 'W4c' }, joint('W4'))).toBe(false);
});

test('when one contact of a module is to be cleaned then all of its plug are, in one repair', async () => {
  const bench = await workbenchOf('can-pair');
  const contacts = bench.faults.filter(({ part, contact }) => part === 'A3' && contact);
  expect(contacts.map(({ site }) => site)).toEqual(expect.arrayContaining(['A3.30', 'A3.31', 'A3.54']));
  expect(new Set(contacts.map(({ repair }) => repair.how)).size).toBe(1);
  const action = repairAction(bench, contacts[0]!);
  expect(action).toEqual({ do: 'clean', at: 'A3' });
  expect(mendedBy(bench, action)).toEqual(contacts);
});

test('when a fuse has blown then a new one is the repair, whether it was of age or of too few amperes', async () => {
  const bench = await workbenchOf('washer');
  const [aged, small] = ['F1:link open', 'F1:link wrong rating'].map((id) =>
    bench.faults.find((one) => one.id === id)!,
  );
  expect(small!.repair).toEqual(aged!.repair);
  expect(mendedBy(bench, repairAction(bench, small!))).toEqual(expect.arrayContaining([aged, small]));
});
