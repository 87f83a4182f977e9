/** What the screens say where a mechanic is easily misled: second fuses, assumptions, told words, reasons. */
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { bench, shown, type Bench, type Ran } from './bench.js';

const STOP_TAIL = fileURLToPath(new URL('../../circuits/stop-tail.yaml', import.meta.url));

let at: Bench;
let session: readonly string[];
beforeEach(async () => {
  at = await bench();
  session = ['--session', join(at.folder, 's.journal')];
});
afterEach(() => at.remove());

const record = (...lines: string[]): Promise<Ran> => at.run(['record', ...session, ...lines]);
const begin = (): Promise<Ran> => at.run(['new', STOP_TAIL, ...session]);
const flat = ({ stdout, stderr }: Ran): string => `${stdout} ${stderr}`.replace(/\s+/g, ' ');

describe('a blown fuse', () => {
  const blown = [
    'fails H1.58 H2.58 H4 when lights on',
    'works H1.54 when pedal down',
    'out F6',
    'prove ohms',
    'ohms F6 OL',
  ];

  test('when it is found blown then it is called a symptom with what may have blown it', async () => {
    await begin();
    await record(...blown);
    const suspects = await at.run(['suspects', ...session]);
    expect(flat(suspects), shown(suspects)).toContain(
      'F6 is blown. That is a symptom. What may have blown it:',
    );
  });

  test('when another fuse goes in while a short is suspected then the test lamp is named and a yes is asked', async () => {
    await begin();
    await record(...blown);
    const stopped = await record('new F6');
    expect(stopped.status, shown(stopped)).toBe(2);
    expect(flat(stopped)).toContain('(line: lamp F6)');
    expect(flat(stopped)).toContain('section by section');
    const heeded = await at.run(['record', '--yes', ...session, 'new F6']);
    expect(heeded.status, shown(heeded)).toBe(0);
  });

  test('when a fuse went in while a short was suspected then the report keeps that caution, once', async () => {
    await begin();
    await record(...blown);
    const words = 'A short behind F6 is still suspected';
    const before = await at.run(['report', ...session]);
    expect(flat(before), shown(before)).not.toContain(words);
    await at.run(['record', '--yes', ...session, 'new F6', 'out F6', 'in F6']);
    const after = flat(await at.run(['report', ...session]));
    expect(after.split(words).length - 1).toBe(1);
    await record('undo', 'undo', 'undo');
    const undone = await at.run(['report', ...session]);
    expect(flat(undone), shown(undone)).not.toContain(words);
  });
});

describe('soft evidence and assumptions', () => {
  test('when a part is assumed good then it is listed apart, with what that takes away', async () => {
    await begin();
    await record('fails H1.54 H2.54 H3 when pedal down', 'assume S4');
    const suspects = await at.run(['suspects', ...session]);
    expect(flat(suspects), shown(suspects)).toContain(
      'Assumed: S4, taken as good without a test, would still fit:',
    );
    const why = await at.run(['why', 'S4', ...session]);
    expect(flat(why), shown(why)).toContain('would still fit, had it not been taken as good:');
  });

  test('when a look moves the ranking then the share by measurements alone stands beside it', async () => {
    await begin();
    await record('fails H1.54 when pedal down', 'works H2.54 H3 when pedal down', 'look X3 corroded');
    const why = await at.run(['why', 'X3', ...session]);
    expect(flat(why), shown(why)).toMatch(/by measurements alone \d+ %/);
    expect(flat(why)).toMatch(/not proof: #\d+ speaks for it/);
  });
});

test('when asked why then finding, prediction, reading and what is healthy stand in one line each', async () => {
  await begin();
  await record('fails H1.54 when pedal down', 'works H2.54 H3 when pedal down');
  const why = await at.run(['why', 'X3', ...session]);
  expect(flat(why), shown(why)).toMatch(/#2 was off; with this fault off[^;]*; healthy lit/);
});

test('when suspects are listed then what is always open stands at the end with its shares', async () => {
  await begin();
  await record('fails H1.54 when pedal down', 'works H2.54 H3 when pedal down');
  const suspects = await at.run(['suspects', ...session]);
  for (const open of ['a reading is wrong', 'the drawing differs', 'no fault now'])
    expect(flat(suspects), shown(suspects)).toMatch(new RegExp(`Open as well: .*${open} <?\\d+ %`));
});

test('when every pair is asked for then all of them are judged', async () => {
  const small = fileURLToPath(new URL('../published/circuits/lamp-and-resistor.yaml', import.meta.url));
  await at.run(['new', small, ...session]);
  await record('volts R1.1 R1.2 0.0/10.0');
  const ran = await at.run(['suspects', '--thorough', '--json', ...session]);
  const { pairsExamined } = JSON.parse(ran.stdout) as { pairsExamined: { done: number; of: number } };
  expect(pairsExamined.of, shown(ran)).toBeGreaterThan(0);
  expect(pairsExamined.done).toBe(pairsExamined.of);
});
