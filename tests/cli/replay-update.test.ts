/** `replay --update`: what comes out is taken over; comments, other entries and other files stay as they are. */
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readJournal } from '../../src/files/journal.js';
import { bench, REVERSING, shown, type Bench } from './bench.js';
import { recordedSession, STEPS } from './replay-session-files.js';

/** A few parts only: what is worked out at length is worked out quickly. */
const SMALL = fileURLToPath(new URL('../published/circuits/lamp-and-resistor.yaml', import.meta.url));

let at: Bench;
beforeAll(async () => {
  at = await bench();
});
afterAll(() => at.remove());

const head = `# Demo.\nsession: 1\ntitle: demo\ncircuit: ${REVERSING}\nsteps:\n  # in this order\n  - key on, gear reverse\n  - fails H1\n  - works H2   # the other one\n`;

describe('a session written by hand', () => {
  test('when some of it differs then only that is rewritten, with its comments, and it holds from then on', async () => {
    const expected = `expect: # what must come out
  top: [F7]
  # from the ground side
  suspects: [H1, GP3] # both
  not on its own: [F7, H1] # the feed
  fits: false # for now
  verified: false
  severity: {X3.2 resistance: 1 to 2 mohm}
# the end
`;
    const file = await at.file('some.yaml', head + expected);
    const other = await at.file('holds.yaml', `${head}expect: {fits: true}\n`);
    const ran = await at.run(['replay', '--update', file, other]);
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stdout).toContain('accepted: fits: true');
    const text = await readFile(file, 'utf8');
    expect(text.startsWith(head)).toBe(true);
    expect(text.endsWith('# the end\n')).toBe(true);
    expect(text).toMatch(/suspects: \[ ?H1 ?\] # both\n/);
    expect(text).toMatch(/not on its own: \[ ?F7 ?\] # the feed\n/);
    expect(text).toContain('# what must come out');
    expect(text).toContain('# from the ground side');
    expect(text).toContain('fits: true # for now\n');
    expect(text).toMatch(/drawing: [0-9a-f]{12}\n/);
    expect(await readFile(other, 'utf8')).toBe(`${head}expect: {fits: true}\n`);
    const again = await at.run(['replay', '--strict', file]);
    expect(again.status, shown(again)).toBe(0);
    expect(again.stdout).not.toContain('note:');
  });

  test('when it expects nothing then it is said, and an update writes the leading suspects', async () => {
    const file = await at.file('nothing.yaml', head);
    const before = await at.run(['replay', file]);
    expect(before.status).toBe(0);
    expect(before.stdout).toContain('note: it expects nothing');
    await at.run(['replay', '--update', file]);
    const text = await readFile(file, 'utf8');
    expect(text.startsWith(head)).toBe(true);
    expect(text).toMatch(
      /\nexpect:\n {2}suspects: \[.+\]\n {2}top: \[.+\]\n {2}fits: true\n {2}verified: false\n {2}drawing: /,
    );
    expect((await at.run(['replay', '--strict', file])).status).toBe(0);
  });

  test('when it was saved with CR LF then it stays so', async () => {
    const file = await at.file('crlf.yaml', `${head}expect: {fits: false}\n`.replaceAll('\n', '\r\n'));
    await at.run(['replay', '--update', file]);
    const text = await readFile(file, 'utf8');
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect((await at.run(['replay', file])).status).toBe(0);
  });

  test('when it cannot be run then nothing is written', async () => {
    const text = `${head.replace('fails H1', 'fails H9')}expect: {fits: false}\n`;
    const file = await at.file('wrong.yaml', text);
    expect((await at.run(['replay', '--update', file])).status).toBe(2);
    expect(await readFile(file, 'utf8')).toBe(text);
  });

  test.each([
    ['the cause is another', 'cause: [R1]', 'the report should name R1 as the cause; it names'],
    ['it is less sure', 'certainty: confirmed', 'the cause should be confirmed; it is most likely'],
    ['the next test is another', 'next: volts R1.1', 'the next test should be: volts R1.1; it is:'],
  ])('when %s then that is said, and an update takes over what is so', async (_title, expected, message) => {
    const small = `session: 1\ntitle: demo\ncircuit: ${SMALL}\nsteps:\n  - fails H1\n`;
    const file = await at.file('more.yaml', `${small}expect: {${expected}}\n`);
    const ran = await at.run(['replay', file]);
    expect(ran.status, shown(ran)).toBe(1);
    expect(ran.stdout).toContain(message);
    await at.run(['replay', '--update', file]);
    expect((await at.run(['replay', file])).status, await readFile(file, 'utf8')).toBe(0);
  });

  test('when a part is cleared only once every pair is judged then every pair is judged', async () => {
    const steps = [
      'prove volts',
      'fails H1',
      'amps H1.1 0.000',
      'volts H1.31 bat- 0.00/12.60',
      'volts H1.1 bat- 12.60',
    ];
    const text = [
      'session: 1',
      'title: demo',
      `circuit: ${SMALL}`,
      'steps:',
      ...steps.map((step) => `  - ${step}`),
    ];
    const file = await at.file('cleared.yaml', `${text.join('\n')}\nexpect: {cleared: [W2, R1]}\n`);
    const ran = await at.run(['replay', file]);
    expect(ran.stdout, shown(ran)).toContain('R1 should be cleared; it is: not on its own');
    expect(ran.stdout).not.toContain('W2');
  });
});

describe('a journal', () => {
  test('when its drawing was changed then the update adds what is concluded now, and rewrites nothing', async () => {
    const kept = await recordedSession(at, 'accept', [...STEPS, 'done']);
    const before = await readFile(kept.session);
    await kept.change('left reversing lamp, watts: 21 W', 'left reversing lamp, watts: 5 W');
    expect((await at.run(['replay', kept.session])).status).toBe(1);
    const ran = await at.run(['replay', '--update', kept.session]);
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stdout).toContain('accepted: what is concluded now is recorded beside event 10');
    const after = await readFile(kept.session);
    expect(after.subarray(0, before.length).equals(before)).toBe(true);
    const { recorded } = await readJournal(kept.session);
    expect(recorded.at(-1)).toMatchObject({ event: { type: 'paused' }, judged: { accepted: true } });
    const again = await at.run(['replay', '--strict', kept.session]);
    expect(again.stdout, shown(again)).toContain('1 hold, 0 differ');
    expect((await at.run(['sessions', '--json'])).status).toBe(0);
  });

  test('when it holds with conclusions then an update leaves it alone', async () => {
    const { session } = await recordedSession(at, 'leave', [...STEPS, 'done']);
    const before = await readFile(session);
    await at.run(['replay', '--update', session]);
    expect((await readFile(session)).equals(before)).toBe(true);
  });

  test('when its drawing lacks a name that it speaks of then it is not accepted', async () => {
    const kept = await recordedSession(at, 'lacks', [...STEPS, 'done']);
    const before = await readFile(kept.session);
    const text = await readFile(kept.drawing, 'utf8');
    await at.file('lacks.yaml', text.replace(/\bH1\b/g, 'H5'));
    const ran = await at.run(['replay', '--update', kept.session]);
    expect(ran.status, shown(ran)).toBe(1);
    expect(ran.stdout).toContain('This circuit has no load "H1"');
    expect((await readFile(kept.session)).equals(before)).toBe(true);
  });
});
