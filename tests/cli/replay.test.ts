/** Sessions as tests: what holds, what differs, what cannot be run, and the exit status of each. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { bench, EXAMPLES, REVERSING, shown, type Bench } from './bench.js';

let at: Bench;
beforeAll(async () => {
  at = await bench();
});
afterAll(() => at.remove());

const head = `session: 1\ntitle: demo\ncircuit: ${REVERSING}\nsteps:\n  - key on, gear reverse\n  - fails H1\n  - works H2\n`;

describe('replay', () => {
  // All of them hold: tests/examples. Here it is the command that is tried.
  test('when bundled examples are replayed then they hold', async () => {
    const files = ['reversing-dead-lamp.yaml', 'rounded-twelve.yaml'].map((name) => join(EXAMPLES, name));
    const ran = await at.run(['replay', ...files]);
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stdout).toContain(`${files.length} hold, 0 differ, 0 could not run`);
  });

  test.each([
    ['a part should lead that does not', 'top: [F7]', 'F7 should lead'],
    ['a part should be suspect that has fallen', 'suspects: [GP3]', 'GP3 should still be suspect; finding'],
    [
      'a suspect should not be one',
      'not on its own: [H1]',
      'H1 should not be suspect on its own; it is: suspect',
    ],
    ['a suspect should be cleared', 'cleared: [H1]', 'H1 should be cleared'],
    ['it should not fit', 'fits: false', 'fits should be false; it is true'],
    [
      'a severity is another',
      'severity: {X3.2 resistance: 0.001 to 0.01 ohm}',
      'X3.2 resistance has another severity: ',
    ],
    [
      'an open explanation should weigh most',
      'open: no fault now',
      'no fault now should weigh most of what is open',
    ],
    ['the leader should come and go', 'course: comes and goes', 'should fit as: comes and goes; it fits as:'],
    ['it should be verified', 'verified: true', 'verified should be true; it is false'],
  ])('when %s then status 1 and the difference in one line', async (_title, expected, difference) => {
    const file = await at.file('differs.yaml', `${head}expect: {${expected}}\n`);
    const ran = await at.run(['replay', file]);
    expect(ran.status, shown(ran)).toBe(1);
    expect(ran.stdout).toContain(difference);
  });

  test('when what is expected comes out then status 0', async () => {
    const file = await at.file(
      'holds.yaml',
      `${head}expect: {suspects: [H1], not on its own: [F7, S2], not blamed: [F7], fits: true, verified: false}\n`,
    );
    const ran = await at.run(['replay', file]);
    expect(ran.status, shown(ran)).toBe(0);
  });

  test.each([
    ['a severity that is no range', 'severity: {GP2 resistance: much}', 'is no range of severities'],
    ['a fault of no part', 'severity: {GP99 resistance: 2 ohm}', 'no part or wire for the fault'],
    ['an unknown open explanation', 'open: gremlins', 'use one of: no fault now, a reading is wrong'],
  ])(
    'when %s is expected then it could not run, and the word is named',
    async (_title, expected, message) => {
      const ran = await at.run(['replay', await at.file('odd.yaml', `${head}expect: {${expected}}\n`)]);
      expect(ran.status, shown(ran)).toBe(2);
      expect(ran.stdout).toContain(message);
    },
  );

  test('when the fitted severity meets the expected one then it holds', async () => {
    const steps = '  - volts X3.2h bat- 0.0/12.4\n  - volts X3.2c bat- 11.9/12.4\n';
    const expected = 'expect: {top: [X3], severity: {X3.2 resistance: 20 ohm to open}}\n';
    const ran = await at.run(['replay', await at.file('fits.yaml', head + steps + expected)]);
    expect(ran.status, shown(ran)).toBe(0);
  });

  test('when one file cannot be run then status 2, and the others are still judged', async () => {
    const broken = await at.file('broken.yaml', head.replace('fails H1', 'fails H9'));
    const differs = await at.file('differs.yaml', `${head}expect: {fits: false}\n`);
    const ran = await at.run(['replay', '--json', broken, differs, 'missing.journal']);
    expect(ran.status, shown(ran)).toBe(2);
    expect(JSON.parse(ran.stdout)).toMatchObject({ schema: 1, holds: 0, differs: 1, failed: 2 });
  });

  test('when a journal is replayed then its events are judged by the drawing of today', async () => {
    const drawing = await at.file('mine.yaml', await readFile(REVERSING, 'utf8'));
    const session = join(at.folder, 'j.journal');
    await at.run(['new', drawing, '--session', session]);
    await at.run(['record', '--session', session, 'fails H1 when gear reverse, key on']);
    expect((await at.run(['replay', session])).status).toBe(0);
    await at.file('mine.yaml', (await readFile(REVERSING, 'utf8')).replace(/\bH1\b/g, 'H5'));
    const ran = await at.run(['replay', session]);
    expect(ran.status, shown(ran)).toBe(1);
    expect(ran.stdout).toContain('H1');
  });
});
