/** `make` and `adapt`: circuits of one's own, by questions and without. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { bench, person, shown, type Bench } from './bench.js';

let at: Bench;
beforeEach(async () => {
  at = await bench();
});
afterEach(() => at.remove());

const read = (name: string): Promise<string> => readFile(join(at.folder, name), 'utf8');

describe('make', () => {
  test('when a dozen questions are answered then the file is in order, and a fault in it is found', async () => {
    const asker = person([
      'Rear lamps',
      '12',
      '2 stop lamps P21W',
      'brake pedal',
      '',
      '',
      '',
      '',
      '',
      'horn 5 A',
      '',
      '2',
      '',
      '5',
      '',
    ]);
    const made = await at.run(['make', 'rear.yaml'], { asker });
    expect(made.status, shown(made)).toBe(0);
    expect(asker.left).toBe(0);
    const checked = await at.run(['check', '--strict', 'rear.yaml']);
    expect(checked.status, shown(checked)).toBe(0);
    await at.run(['new', 'rear.yaml', '--session', 's.kgs']);
    const lines = [
      'fails H1 when brake pedal down',
      'works H2 when brake pedal down',
      'prove volts',
      'brake pedal down',
      'volts X1.1h 12.3',
      'volts X1.1c 0.02',
    ];
    const recorded = await at.run(['record', '--session', 's.kgs', ...lines]);
    expect(recorded.status, shown(recorded)).toBe(0);
    const { groups } = JSON.parse((await at.run(['suspects', '--session', 's.kgs', '--json'])).stdout) as {
      groups: { suspects: { faults: { part: string }[] }[] }[];
    };
    expect(groups[0]!.suspects[0]!.faults[0]!.part).toBe('X1');
  });

  test('when no name is given then a person is asked for it, and a script is told how to give one', async () => {
    const asker = person(['lamps', ...Array.from({ length: 15 }, () => '')]);
    const made = await at.run(['make'], { asker });
    expect(made.status, shown(made)).toBe(0);
    expect(await read('lamps.yaml')).toContain('knowngood check FILE');
    const silent = await at.run(['make', '--yes']);
    expect(silent.status).toBe(2);
    expect(shown(silent)).toContain('knowngood make mine.yaml');
  });

  test('when nonsense is typed then it is asked again, and back goes back', async () => {
    const asker = person([
      '',
      '48',
      '24 V',
      'what',
      'lamp 5 W',
      '',
      'back',
      'key',
      '',
      ...Array<string>(20).fill(''),
    ]);
    const ran = await at.run(['make', 'a.yaml'], { asker });
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stderr).toContain('is not 6, 12 or 24 V');
    const text = await read('a.yaml');
    expect(text).toContain('nominal: 24 V');
    expect(text).toContain('key: [off, on]');
  });

  test('when somebody cannot say then they are told what Enter takes, and asked again', async () => {
    const asker = person(['', '', '', "I don't know", '', ...Array.from({ length: 11 }, () => '')]);
    const made = await at.run(['make', 'own.yaml'], { asker });
    expect(made.status, shown(made)).toBe(0);
    expect(shown(made)).toContain('Then Enter takes light switch');
    expect(asker.left).toBe(0);
  });

  test('when the answers are in a file or in flags then nothing is asked', async () => {
    await at.file(
      'answers.txt',
      '# my truck\nvolts: 24\nloads: 2 work lamps 70 W\n\nthrough: relay\nside = ground\n',
    );
    const ran = await at.run(['make', 'truck', '--answers', 'answers.txt', '--switch', 'work lamps']);
    expect(ran.status, shown(ran)).toBe(0);
    const text = await read('truck.yaml');
    expect(text).toContain('circuit: truck');
    expect(text).toMatch(/K1: \{type: relay/);
    expect(text).toContain('work lamps: [off, on]');
    const flags = await at.run(['make', 'flags.yaml', '--loads', 'horn 5 A', '--yes']);
    expect(flags.status, shown(flags)).toBe(0);
  });

  test('when a file is there then it stays, but with a typed yes or --overwrite', async () => {
    await at.file('there.yaml', 'mine');
    for (const asker of [person(['y']), undefined]) {
      const ran = await at.run(
        ['make', 'there.yaml', ...(asker === undefined ? ['--loads', 'lamp 5 W', '--yes'] : [])],
        asker === undefined ? {} : { asker },
      );
      expect(ran.status, shown(ran)).toBe(2);
      expect(await read('there.yaml')).toBe('mine');
    }
    const ran = await at.run(['make', 'there.yaml', '--loads', 'lamp 5 W', '--yes', '--overwrite']);
    expect(ran.status, shown(ran)).toBe(0);
    expect(await read('there.yaml')).toContain('type: lamp');
  });

  test('when Ctrl-C comes then nothing is written and the status is 130', async () => {
    const ran = await at.run(['make', 'no.yaml'], { asker: person(['', '^C']) });
    expect(ran.status, shown(ran)).toBe(130);
    await expect(read('no.yaml')).rejects.toThrow();
  });

  test.each([
    ['an answer makes no sense', ['--loads', 'lamp 5 kg', '--yes'], 'loads: '],
    ['there is nobody to ask', [], '--loads'],
    [
      'the file of answers names no question',
      ['--answers', 'odd.txt'],
      'odd.txt:2: there is no question "lods"',
    ],
    ['the folder is not there', ['--loads', 'lamp 5 W', '--yes'], 'no such folder'],
  ])('when %s then status 2, how to mend it, and no file', async (title, argv, says) => {
    await at.file('odd.txt', 'volts: 12\nlods: lamp\n');
    const ran = await at.run(['make', title.startsWith('the folder') ? 'nowhere/x.yaml' : 'x.yaml', ...argv]);
    expect(ran.status, shown(ran)).toBe(2);
    expect(ran.stderr).toContain(says);
    await expect(read('x.yaml')).rejects.toThrow();
  });
});

describe('adapt', () => {
  test('when changes are named then the new file has them and its comments, and passes check', async () => {
    const ran = await at.run([
      'adapt',
      'stop-tail',
      'set H4 watts 10 W',
      '--add-connector',
      'W8',
      'X9',
      '--out',
      'mine.yaml',
    ]);
    expect(ran.status, shown(ran)).toBe(0);
    const text = await read('mine.yaml');
    expect(text).toContain('# Stop lamps: fuse, stop switch, tail loom');
    expect(text).toContain('circuit: mine');
    expect((await at.run(['check', 'mine.yaml'])).status).toBe(0);
    expect((await at.run(['draw', 'mine.yaml', 'X9'])).stdout).toContain('X9.1h to X9.1c');
  });

  test('when no file is named then the text is on stdout', async () => {
    const ran = await at.run(['adapt', 'horn', 'rename F1 F77']);
    expect(ran.status, shown(ran)).toBe(0);
    await at.file('p.yaml', ran.stdout);
    expect((await at.run(['check', 'p.yaml'])).status).toBe(0);
  });

  test('when one of several changes is refused then nothing is written', async () => {
    const ran = await at.run([
      'adapt',
      'stop-tail',
      'set H4 watts 10 W',
      'connector X9 in W99',
      '--out',
      'mine.yaml',
    ]);
    expect(ran.status, shown(ran)).toBe(2);
    expect(ran.stderr).toContain('connector X9 in W99: there is no wire called "W99"');
    await expect(read('mine.yaml')).rejects.toThrow();
  });

  test('when it is talked over then nonsense is told, undo takes back, and a name that is taken is asked again', async () => {
    await at.file('taken.yaml', 'mine');
    const asker = person([
      'nonsense',
      'set H4 watts 10 W',
      'lamp H9 5 W SP3 GP3',
      'undo',
      'draw H4',
      'done',
      'taken',
      'no',
      '',
    ]);
    const ran = await at.run(['adapt', 'stop-tail'], { asker });
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stderr).toContain('cannot start with "nonsense"');
    expect(ran.stdout).toContain('H4.1 to H4.31');
    expect(await read('taken.yaml')).toBe('mine');
    const text = await read('my-stop-tail.yaml');
    expect(text).toContain('watts: 10 W');
    expect(text).not.toContain('H9');
  });

  test('when nothing is changed then nothing is written', async () => {
    const ran = await at.run(['adapt', 'stop-tail'], { asker: person(['done']) });
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stderr).toContain('nothing was written');
  });
});
