/**
 * One value of one circuit is broken on purpose. The ground wire of the right reversing lamp becomes a hundred times as long: 0.7 ohm
 * more, so that lamp is a little dim in order, and half a volt stays behind at its ground side. Sessions that rest on "left lit, right
 * dark" or on the volts there turn red; those about the left side, and those on other circuits, do not.
 */
import { cp, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { bench, EXAMPLES, shown, type Bench } from './bench.js';

const CIRCUITS = fileURLToPath(new URL('../../circuits/', import.meta.url));
const WIRE = '{from: X4.2h, to: GP3, size: 0.75 mm2, length: 0.3 m';
const ABOUT_THE_RIGHT = [
  'damp-broken-wire',
  'lamp-of-the-wrong-voltage',
  'ohms-on-a-live-line',
  'swap-that-stays',
];
const OTHERS = [
  'reversing-dead-lamp',
  'rounded-twelve',
  'swap-that-follows',
  'two-faults-one-hidden',
  'full-volts-unloaded',
];

let at: Bench;
beforeAll(async () => {
  at = await bench();
  for (const folder of ['before', '.']) {
    for (const name of ['reversing-lamps', 'stop-tail'])
      await cp(join(CIRCUITS, `${name}.yaml`), join(at.folder, folder, 'circuits', `${name}.yaml`));
  }
  for (const name of [...ABOUT_THE_RIGHT, ...OTHERS])
    await cp(join(EXAMPLES, `${name}.yaml`), join(at.folder, 'examples', `${name}.yaml`));
});
afterAll(() => at.remove());

test('when a circuit value is broken then exactly the affected sessions turn red, and the reason is that value', async () => {
  const file = join(at.folder, 'circuits/reversing-lamps.yaml');
  const text = await readFile(file, 'utf8');
  expect(text).toContain(WIRE);
  await writeFile(file, text.replace(WIRE, WIRE.replace('0.3 m', '30 m')));
  const ran = await at.run(['replay', '--json', '--before', 'before', 'examples']);
  expect(ran.status, shown(ran)).toBe(1);
  const { sessions } = JSON.parse(ran.stdout) as {
    sessions: { file: string; outcome: string; reasons: string[] }[];
  };
  const red = sessions.filter(({ outcome }) => outcome !== 'holds');
  expect(red.map((one) => one.file)).toEqual(ABOUT_THE_RIGHT.map((name) => `examples/${name}.yaml`));
  for (const { reasons } of red) {
    expect(reasons[0]).toBe('the drawing was changed: wires X4.2h to GP3 length: 0.3 m then, 30 m now');
    expect(reasons[1]).toBe('by the earlier drawing it holds: the change makes the difference');
    expect(reasons.slice(2).join('\n')).toMatch(/#\d+ /);
  }
  expect(sessions).toHaveLength(ABOUT_THE_RIGHT.length + OTHERS.length);
});
