/**
 * Every circuit of the shelf, fault by fault: is the one that is there kept, and found? Up to twelve faults of each circuit, evenly
 * over its list; other numbers, and some circuits only:
 *
 *     KNOWNGOOD_SHELF=all KNOWNGOOD_CIRCUITS=horn,blower npx vitest run --config longtests.config.ts tests/trials/shelf.long.ts
 */
import { afterAll, expect, test } from 'vitest';
import { huntAll, isFound, shelfTable, type Hunted } from './shelf.js';
import { circuitNames } from './trials.js';

const wanted = process.env['KNOWNGOOD_SHELF'] ?? '12';
const MOST = wanted === 'all' ? Infinity : Number(wanted);
const only = process.env['KNOWNGOOD_CIRCUITS']?.split(',');

const all: Hunted[] = [];
const faults = new Map<string, number>();

afterAll(() => {
  console.log(`\n${shelfTable(all, faults)}\n`);
});

test.each(circuitNames().filter((name) => only?.includes(name) ?? true))(
  'when faults of %s are hunted one by one then each is kept and found',
  async (name) => {
    const own: Hunted[] = [];
    const { faults: count } = await huntAll(name, MOST, (hunted) => own.push(hunted));
    all.push(...own);
    faults.set(name, count);
    console.log(shelfTable(own, new Map([[name, count]])).split('\n')[1]);
    const scored = own.flatMap(({ score }) => score ?? []);
    expect(own.length).toBeGreaterThan(0);
    const told = (list: typeof scored) => list.map(({ truth, apart }) => `${truth} ${apart}`);
    expect(told(scored.filter(({ kept }) => !kept))).toEqual([]);
    expect(told(scored.filter(({ confirmed }) => confirmed === 'wrong'))).toEqual([]);
    expect(told(scored.filter((one) => !isFound(one)))).toEqual([]);
  },
);
