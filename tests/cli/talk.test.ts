/** The conversation, with a person who types prepared lines, and without one. */
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { readJournal } from '../../src/files/journal.js';
import type { Event } from '../../src/session/events.js';
import { bench, person, REVERSING, shown, type Bench, type Ran } from './bench.js';

let at: Bench;
let journal: string;
beforeEach(async () => {
  at = await bench();
  journal = join(at.folder, 's.journal');
});
afterEach(() => at.remove());

const events = async (): Promise<readonly Event[]> =>
  (await readJournal(journal)).recorded.map(({ event }) => event);
const types = async (): Promise<readonly string[]> => (await events()).map((event) => event.type);
/** Complaint, vehicle, history, what fails, its condition, no more, what works, its condition, no more. */
const opening = [
  'left lamp dead',
  '',
  '',
  'H1',
  'gear reverse, key on',
  '',
  'H2',
  'gear reverse, key on',
  '',
];
const startWith = async (...lines: string[]): Promise<Ran & { asker: ReturnType<typeof person> }> => {
  const asker = person([...opening, ...lines]);
  return { ...(await at.run(['start', REVERSING, '--session', journal], { asker })), asker };
};

describe('at the prompt', () => {
  test('when the first question is answered with a line of the grammar then it is recorded as one, and no more is asked', async () => {
    const asker = person(['', 'fails H1 when gear reverse, key on', 'pause']);
    const ran = await at.run(['start', REVERSING, '--session', journal], { asker });
    expect(await types(), shown(ran)).toEqual(['opened', 'found', 'paused']);
    expect(asker.questions.filter((question) => /History|What fails/.test(question))).toEqual([]);
  });

  test('when the session goes from the complaint to a verified repair then the report ends it', async () => {
    const ran = await startWith(
      'key on, gear reverse',
      'volts bat+ bat- 12.4',
      'volts X3.2h bat- 0.0',
      'volts X3.2c bat- 11.9',
      'repair X3 cleaned pin 2, 15 min',
      'lit', // the failed condition repeated
      '', // close and print
    );
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.asker.left).toBe(0);
    expect(ran.stdout.replace(/\s+/g, ' ')).toContain(
      'The cause was high resistance or open: pin 2 of connector X3',
    );
    expect(ran.stdout).toContain('CAUSE (CONFIRMED)');
    expect((await types()).at(-1)).toBe('closed');
    expect(await events()).toContainEqual(
      expect.objectContaining({
        type: 'found',
        symptom: 'absent',
        reading: { kind: 'load', load: 'H1', value: 'lit' },
      }),
    );
  });

  test('when a finding that nothing explains was taken with the controls forgotten then that is said, and told once', async () => {
    const { stdout, stderr } = await startWith('H2 lit', 'pause');
    const screen = `${stdout}${stderr}`.replace(/\s+/g, ' ');
    expect(screen).toContain('was taken with everything at rest; what failed before, with');
    expect(screen).toMatch(/undo (\d+), then type it again with "when"/);
    expect(screen.match(/Nothing in this drawing explains/g)).toHaveLength(1);
  });

  test.each([
    ['works H1'],
    ['H1 works'],
    ['it works again'],
    ['H1 lit when key on gear reverse'],
    ['what is it', 'suspects', 'on'],
  ])(
    'when the repeat is answered by %s then it is recorded and the repair is verified',
    async (...answers) => {
      const ran = await startWith(
        'key on, gear reverse',
        'volts bat+ bat- 12.4',
        'volts X3.2h bat- 0.0',
        'volts X3.2c bat- 11.9',
        'key off', // a load named without a condition is meant in the failed one
        'repair X3 cleaned pin 2, 15 min',
        ...answers,
        '',
      );
      expect(ran.status, shown(ran)).toBe(0);
      expect(ran.asker.left).toBe(0);
      expect(ran.stdout).toContain('CAUSE (CONFIRMED)');
      const found = (await events()).filter((event) => event.type === 'found' && event.symptom === 'absent');
      expect(found).toMatchObject([{ reading: { kind: 'load', load: 'H1', value: 'lit' } }]);
      if (answers[0] === 'what is it') expect(ran.stderr).toContain('"what is it" does not say what H1 does');
    },
  );

  test('when another load is told at the repeat then it is recorded, and the failed one is asked again', async () => {
    const ran = await startWith(
      'key on, gear reverse',
      'volts bat+ bat- 12.4',
      'volts X3.2h bat- 0.0',
      'volts X3.2c bat- 11.9',
      'repair X3 cleaned pin 2, 15 min',
      'works H2',
      'still dead',
      'no', // no reading taken again
      '', // not closed
      'pause',
    );
    expect(ran.status, shown(ran)).toBe(0);
    const questions = ran.asker.questions.filter((text) => text.startsWith('Repeat the failed condition'));
    expect(questions).toHaveLength(2);
    const tail = (await events()).filter((event) => event.type === 'found').slice(-2);
    expect(tail).toMatchObject([
      { reading: { kind: 'load', load: 'H2', value: 'lit' } },
      { reading: { kind: 'load', load: 'H1', value: 'off' }, symptom: 'present' },
    ]);
  });

  test('when it is closed on the strength of one reading then that reading is named and going back is offered', async () => {
    const ran = await startWith(
      'key on, gear reverse',
      'volts X3.2h bat- 0.0/12.4',
      'volts X3.2c bat- 11.9/12.4',
      'no', // nothing repaired yet
      'done',
      '', // go back
      'done',
      'no', // close all the same
    );
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.asker.left).toBe(0);
    expect(ran.stderr.replace(/\s+/g, ' ')).toMatch(/If finding #\d+ were wrong, .*Take it again\?/);
    expect((await types()).filter((type) => type === 'closed')).toEqual(['closed']);
    expect(ran.stdout).toContain('IF ONE FINDING WERE WRONG');
  });

  test('when the failed condition was repeated before it is asked for then it is not asked for again', async () => {
    const ran = await startWith(
      'key on, gear reverse',
      'volts X3.2h bat- 0.0/12.4',
      'volts X3.2c bat- 11.9/12.4',
      'no', // go on testing
      'repair X3 cleaned pin 2, 15 min',
      'works H1',
      '', // the complaint is gone
      '', // close and print
    );
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.asker.left).toBe(0);
    expect(ran.asker.questions.filter((text) => text.startsWith('Repeat the failed condition'))).toEqual([]);
    expect((await types()).at(-1)).toBe('closed');
  });

  test('when the complaint is still there after the repair then testing goes on, with what may be left over', async () => {
    const ran = await startWith(
      'key on, gear reverse',
      'volts bat+ bat- 12.4',
      'volts X3.2h bat- 0.0',
      'volts X3.2c bat- 11.9',
      'repair X3 cleaned pin 2, 15 min',
      'still dead', // the failed condition repeated
      'pause',
    );
    const told = ran.stderr.replace(/\s+/g, ' ');
    expect(told, shown(ran)).toContain('The complaint is still there');
    expect(told).toMatch(/Second faults, left over beside what was repaired: .*pin 2 of connector X3/);
    expect(told).not.toContain('Close it all the same?');
    expect(await types()).not.toContain('closed');
  });

  test('when one side works then shared parts fall at once, with prediction beside reading', async () => {
    const ran = await startWith('pause');
    expect(ran.stderr.replace(/\s+/g, ' ')).toMatch(
      /No longer suspect on their own: .*F7.*would have given .*; it was/,
    );
  });

  test('when a bare reading is typed then it answers the suggested test, with its steps', async () => {
    const ran = await startWith('0.1', 'pause');
    const suggested = /line: {2}(.*) \.\.\./.exec(ran.stderr)?.[1] ?? '';
    expect(suggested, shown(ran)).toMatch(/^(volts|drop|ohms) /);
    const found = (await events()).at(-2);
    expect(found).toMatchObject({
      type: 'found',
      reading: { value: { value: 0.1, step: 0.1 } },
    });
  });

  test('when the suggested test cannot be done then another one is suggested', async () => {
    const ran = await startWith('cannot reach', 'pause');
    const suggested = [...ran.stderr.matchAll(/line: {2}(.*) \.\.\./g)].map(([, line]) => line);
    expect(suggested.length).toBe(2);
    expect(suggested[1]).not.toBe(suggested[0]);
    expect(await events()).toContainEqual({ type: 'skipped', test: suggested[0], why: 'cannot reach' });
  });

  test('when a line is wrong then it is said where, nothing is recorded and the talk goes on', async () => {
    const ran = await startWith('volts X9.1h 12', 'pause');
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stderr).toContain('X9.1h');
    expect(await types()).toEqual(['opened', 'concern', 'found', 'found', 'paused']);
  });

  test('when undone then what had fallen is suspect again', async () => {
    const ran = await startWith('undo', 'pause');
    expect(ran.stderr.replace(/\s+/g, ' ')).toMatch(/Suspect again: .*F7/);
  });

  test('when a step can hurt then it is recorded only after a typed yes', async () => {
    await startWith('jumper bat+ bat-', 'y', 'jumper bat+ bat-', 'yes', 'unjumper', 'pause');
    const jumpers = (await events()).filter((event) => event.type === 'did' && event.action.do === 'jumper');
    expect(jumpers.length).toBe(1);
  });

  test('when ohms are typed on a live line then they are refused with what to do instead, and nothing is recorded', async () => {
    const ran = await startWith('key on, gear reverse', 'ohms X3.1h body 35', 'no', 'pause');
    expect(ran.status, shown(ran)).toBe(0);
    const said = ran.stderr.replace(/\s+/g, ' ');
    expect(said).toContain('Refused: ohms on a live line.');
    expect(said).toContain('pull the fuse');
    expect(said).toContain('volts X3.1h body ...');
    expect(ran.asker.questions.join('\n')).toContain('record it anyway (on a live line it proves nothing)');
    expect((await events()).some((event) => event.type === 'found' && event.reading.kind === 'ohms')).toBe(
      false,
    );
  });

  test('when ohms of a live line are recorded with a typed yes then no suspect falls by them', async () => {
    const ran = await startWith('key on, gear reverse', 'ohms X3.1h body 35', 'yes', 'pause');
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stderr).toMatch(/recorded: 35 ohm/);
    expect(ran.stderr.slice(ran.stderr.indexOf('recorded: 35 ohm'))).not.toContain('No longer suspect');
  });

  test('when a load recovers in the failed condition then it is asked whether the complaint is gone', async () => {
    const ran = await startWith('wiggle X3', 'H1 lit when gear reverse, key on', '', 'pause');
    expect(ran.asker.questions.some((question) => question.includes('complaint gone'))).toBe(true);
    expect((await events()).at(-2)).toMatchObject({ type: 'found', symptom: 'absent' });
  });

  test('when a reading is typed where yes or no is asked then it is no answer, and is asked again', async () => {
    const ran = await startWith('wiggle X3', 'H1 lit when gear reverse, key on', 'H2 lit', 'no', 'pause');
    expect(ran.stderr.replace(/\s+/g, ' ')).toContain(
      '"H2 lit" is neither yes nor no Answer yes or no first, then type that line again.',
    );
    expect((await events()).at(-2)).toMatchObject({ type: 'found', symptom: 'present' });
  });

  test('when Ctrl-C comes then status 130, it is said how to resume, and resuming goes on there', async () => {
    const stopped = await startWith('gear reverse', '^C');
    expect(stopped.status, shown(stopped)).toBe(130);
    expect(stopped.stderr).toContain(`resume --session "${journal}"`);
    const asker = person(['list', 'pause']);
    const ran = await at.run(['resume', journal], { asker });
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stdout).toContain('gear reverse');
    expect(asker.questions[0]).toContain('[gear reverse]');
  });

  test('when questions are asked then the answers are results and change nothing', async () => {
    const ran = await startWith('why F7', 'suspects', 'next', 'setup', 'help', 'report', 'pause');
    expect(ran.stdout).toContain('F7 (fuse reversing lamps): not on its own');
    expect(ran.stdout).toContain('key off, gear neutral');
    expect(ran.stdout).toContain('REPAIR REPORT');
    expect((await types()).slice(-2)).toEqual(['found', 'paused']);
  });
});

describe('without a terminal', () => {
  const script = [
    '# demo',
    'complaint left lamp dead',
    'key on, gear reverse',
    'fails H1',
    'works H2',
    'volts bat+ bat- 12.4',
    'volts X3.2h bat- 0.0',
    'volts X3.2c bat- 11.9',
    'repair X3 cleaned pin 2, 15 min',
    'H1 lit symptom absent',
    'done',
  ];

  test.each(['an answers file', 'a pipe'])(
    'when the lines come from %s then the session runs to its report',
    async (how) => {
      const text = `${script.join('\n')}\n`;
      const file = await at.file('lines.txt', text);
      const argv = ['start', REVERSING, '--session', journal];
      const ran =
        how === 'a pipe' ? await at.run(argv, { stdin: text }) : await at.run([...argv, '--answers', file]);
      expect(ran.status, shown(ran)).toBe(0);
      expect(ran.stdout).toMatch(/^REPAIR REPORT\n/);
      expect(ran.stdout).toContain('CAUSE (CONFIRMED)');
    },
  );

  test('when a line is wrong then status 2 with its number, and nothing after it is recorded', async () => {
    const ran = await at.run(['start', REVERSING, '--session', journal], {
      stdin: 'key on\n\ngear sideways\nfails H1\n',
    });
    expect(ran.status, shown(ran)).toBe(2);
    expect(ran.stderr).toContain('line 3');
    expect(await types()).toEqual(['opened', 'did']);
  });

  test('when the lines end before the session does then it is kept to be resumed', async () => {
    const ran = await at.run(['start', REVERSING, '--session', journal], { stdin: 'key on\n' });
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stderr).toContain('resume --session');
    expect((await types()).at(-1)).toBe('paused');
  });
});
