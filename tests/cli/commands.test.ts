/** The commands a script uses: usage, check, new, record, undo, questions, report, sessions, schema. */
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { bench, EXAMPLES, REVERSING, shown, type Bench, type Ran } from './bench.js';

let at: Bench;
beforeEach(async () => {
  at = await bench();
});
afterEach(() => at.remove());

const json = (ran: Ran): Record<string, unknown> => JSON.parse(ran.stdout) as Record<string, unknown>;

describe('usage', () => {
  test.each([
    ['an unknown command', ['frobnicate']],
    ['an unknown option', ['suspects', '--nonsense']],
    ['a missing argument', ['why']],
    ['no command', []],
  ])('when there is %s then status 2 and nothing on stdout', async (_title, argv) => {
    const ran = await at.run(argv);
    expect(ran.status, shown(ran)).toBe(2);
    expect(ran.stdout).toBe('');
    expect(ran.stderr).not.toBe('');
  });

  test.each([['--help'], ['--version']])('when %s then status 0 and the answer on stdout', async (flag) => {
    const ran = await at.run([flag]);
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stdout).toMatch(/knowngood|0\.1\.0/);
    expect(ran.stderr).toBe('');
  });

  test('when a circuit file does not exist then status 2 and the name is told', async () => {
    const ran = await at.run(['new', 'nowhere.yaml', '--session', 's.journal']);
    expect(ran.status, shown(ran)).toBe(2);
    expect(ran.stderr).toContain('nowhere.yaml');
    expect(await readdir(at.folder)).toEqual([]);
  });
});

describe('check', () => {
  test('when a circuit is right then status 0', async () => {
    const ran = await at.run(['check', REVERSING]);
    expect(ran.status, shown(ran)).toBe(0);
  });

  test('when a session file is right then it is known as a session', async () => {
    const ran = await at.run(['check', '--json', join(EXAMPLES, 'reversing-dead-lamp.yaml')]);
    expect(ran.status, shown(ran)).toBe(0);
    expect(json(ran)).toMatchObject({
      schema: 1,
      kind: 'knowngood check',
      ok: true,
      files: [{ kind: 'session' }],
    });
  });

  test('when it is a journal then it is said how that is checked', async () => {
    await at.run(['new', REVERSING, '--session', 'a.journal']);
    const ran = await at.run(['check', 'a.journal']);
    expect(ran.status).toBe(1);
    expect(ran.stdout).toContain('knowngood replay FILE');
  });

  test('when a file is wrong then status 1 with file, line and column, and the next file is still checked', async () => {
    await at.file('bad.yaml', 'circuit: bad\ntitle: x\nnominal: 12 apples\n');
    const ran = await at.run(['check', 'bad.yaml', REVERSING]);
    expect(ran.status, shown(ran)).toBe(1);
    expect(ran.stdout).toMatch(/bad\.yaml:\d+:\d+: error: /);
    expect(ran.stdout).toContain('in order');
  });

  test('when a file holds terminal sequences then none reaches the screen', async () => {
    await at.file('sly.yaml', 'circuit: "\u009b31mx"\ntitle: "\u202eevil"\nnominal: 12 V\n');
    const ran = await at.run(['check', 'sly.yaml']);
    expect(ran.status, shown(ran)).toBe(1);
    expect(ran.stdout + ran.stderr).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/);
  });
});

describe('a session one command at a time', () => {
  const session = ['--session', 's.journal'];
  const begin = (): Promise<Ran> => at.run(['new', REVERSING, ...session]);
  const record = (...lines: string[]): Promise<Ran> => at.run(['record', ...session, ...lines]);

  test('when recorded from complaint to repair then the report is verified and names the cause', async () => {
    await begin();
    const ran = await record(
      'complaint left lamp dead',
      'key on, gear reverse',
      'fails H1',
      'works H2',
      'volts bat+ bat- 12.4',
      'volts X3.2h bat- 0.0',
      'volts X3.2c bat- 11.9',
    );
    expect(ran.status, shown(ran)).toBe(0);
    const suspects = json(await at.run(['suspects', '--json', ...session]));
    expect(suspects).toMatchObject({ fits: true, abnormal: true });
    expect(
      (suspects['groups'] as { suspects: { faults: { part: string }[] }[] }[])[0]!.suspects[0]!.faults[0]!
        .part,
    ).toBe('X3');

    await record('repair X3 cleaned pin 2, 15 min', 'H1 lit symptom absent', 'done');
    const report = await at.run(['report', ...session]);
    expect(report.status, shown(report)).toBe(0);
    expect(report.stdout).toMatch(/^REPAIR REPORT\n/);
    expect(report.stdout.replace(/\s+/g, ' ')).toContain(
      'The cause was high resistance or open: pin 2 of connector X3',
    );
    expect(json(await at.run(['report', '--json', ...session]))).toMatchObject({
      kind: 'knowngood report',
      verification: { state: 'verified' },
      closed: true,
    });
    expect((await at.run(['report', '--markdown', ...session])).stdout).toContain('# Repair report');
  });

  test('when one of several lines is wrong then none is recorded and the word is pointed at', async () => {
    await begin();
    const ran = await record('key on', 'volts X9.1h 12');
    expect(ran.status, shown(ran)).toBe(2);
    expect(ran.stderr).toContain('line 2');
    expect(ran.stderr).toContain('^');
    const report = json(await at.run(['report', '--json', ...session]));
    expect(report['steps']).toEqual([]);
  });

  test('when undone then the finding counts no more', async () => {
    await begin();
    await record('fails H1 when gear reverse, key on');
    const undone = await at.run(['undo', ...session]);
    expect(undone.status, shown(undone)).toBe(0);
    expect(undone.stdout).toContain('counts no more');
    expect(json(await at.run(['suspects', '--json', ...session]))).toMatchObject({ abnormal: false });
  });

  test('when a step needs a typed yes then it is recorded only with --yes', async () => {
    await begin();
    const line = 'jumper bat+ bat-';
    const stopped = await record(line);
    expect(stopped.status, shown(stopped)).toBe(2);
    expect(stopped.stderr).toContain('STOP');
    const heeded = await at.run(['record', '--yes', ...session, line]);
    expect(heeded.status, shown(heeded)).toBe(0);
    expect(heeded.stderr).toContain('STOP');
  });

  test('when asked why then prediction stands beside reading', async () => {
    await begin();
    await record('key on, gear reverse', 'fails H1', 'works H2');
    const why = await at.run(['why', 'f7', ...session]);
    expect(why.status, shown(why)).toBe(0);
    expect(why.stdout).toContain('not on its own');
    expect(why.stdout.replace(/\s+/g, ' ')).toMatch(/would have been .*; it was /);
    expect((await at.run(['why', 'F77', ...session])).status).toBe(2);
  });

  test('when asked what is next then the line it names can be recorded with a reading', async () => {
    await begin();
    await record('key on, gear reverse', 'fails H1', 'works H2');
    const answer = json(await at.run(['next', '--json', ...session]));
    const [first] = answer['suggestions'] as {
      line: string;
      first: string[];
      expects: string;
      outcomes: unknown[];
    }[];
    expect(first!.outcomes.length).toBeGreaterThan(1);
    const reading = { volts: '0.1', ohms: '0.3', beep: 'yes', sight: 'off', testlamp: 'off', amps: '0.1' }[
      first!.expects
    ];
    const ran = await at.run(['record', '--yes', ...session, ...first!.first, `${first!.line} ${reading}`]);
    expect(ran.status, shown(ran)).toBe(0);
  });

  test('when names are left out of the report then none stands in it', async () => {
    await begin();
    await record('technician T. Tester', 'vehicle plate DEMO 1');
    const ran = await at.run(['report', '--no-personal', ...session]);
    expect(ran.stdout).not.toMatch(/Tester|DEMO 1/);
    expect((await at.run(['report', ...session])).stdout).toContain('T. Tester');
  });

  test('when the session exists already then a new one does not touch it', async () => {
    await begin();
    const ran = await begin();
    expect(ran.status, shown(ran)).toBe(2);
    expect(ran.stderr).toContain('exists already');
  });

  test('when no session is named then the newest in the default folder is used and listed', async () => {
    await at.run(['new', REVERSING]);
    const ran = await at.run(['record', 'complaint no light']);
    expect(ran.status, shown(ran)).toBe(0);
    expect(json(await at.run(['sessions', '--json']))).toMatchObject({
      sessions: [{ circuit: 'reversing-lamps', complaint: 'no light', state: 'open', events: 2 }],
    });
  });
});

describe('schema', () => {
  test.each(['circuit', 'session'])('when asked for %s then it is JSON Schema 2020-12', async (which) => {
    expect(json(await at.run(['schema', which]))).toMatchObject({
      $schema: 'https://json-schema.org/draft/2020-12/schema',
    });
  });

  test('when the kind is unknown then status 2', async () => {
    expect((await at.run(['schema', 'horse'])).status).toBe(2);
  });
});

describe('colour and ASCII', () => {
  test('when FORCE_COLOR is set then --no-color still wins', async () => {
    const env = { FORCE_COLOR: '1' };
    expect((await at.run(['check', REVERSING], { env })).stdout).toContain('\u001b[');
    expect((await at.run(['check', '--no-color', REVERSING], { env })).stdout).not.toContain('\u001b[');
  });

  test('when the terminal knows only ASCII then nothing else is printed', async () => {
    const ran = await at.run(['demo'], { env: { LANG: 'C' } });
    expect(ran.stdout).toMatch(/^[\n\x20-\x7e]+$/);
  });
});

describe('what comes with the program', () => {
  test('when a part is a known weak spot then why says so, with the reason of the circuit file', async () => {
    await at.run(['new', 'reversing-lamps', '--session', 's.journal']);
    await at.run(['record', '--session', 's.journal', 'fails H1 when key on, gear reverse']);
    const ran = await at.run(['why', 'X2', '--session', 's.journal']);
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stdout.replace(/\s+/g, ' ')).toContain(
      'known weak spot, 3 times as likely before any reading: oil and spray of the road reach it',
    );
    expect((await at.run(['why', 'X3', '--session', 's.journal'])).stdout).not.toContain('weak spot');
  });

  test('when the circuits are listed then each can be started by its name', async () => {
    const ran = await at.run(['circuits']);
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stdout).toMatch(/^reversing-lamps +12 V +2 loads +Reversing lamps, switch in the feed$/m);
    const { circuits } = json(await at.run(['circuits', '--json'])) as { circuits: { id: string }[] };
    expect(circuits.map(({ id }) => id)).toContain('stop-tail');
  });

  test('when the catalogue is asked for some words then only entries with all of them are shown', async () => {
    const ran = await at.run(['catalogue', 'lamp', '24 V']);
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stdout).toMatch(/^ {2}P21W +24 V: 21 W/m);
    expect(ran.stdout).not.toMatch(/12 V|motor/);
    expect((await at.run(['catalogue', 'frobnicator'])).status).toBe(2);
  });
});
