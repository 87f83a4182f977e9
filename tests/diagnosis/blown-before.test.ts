/** What blew a fuse: beside another fault no mere dampness; and what comes and goes may have gone since. */
import { describe, expect, test } from 'vitest';
import { gather } from '../../src/diagnosis/evidence.js';
import { judge } from '../../src/diagnosis/verdict.js';
import { assess } from '../../src/planning/assess.js';
import { advise } from '../../src/planning/next.js';
import { foldCase } from '../../src/session/fold.js';
import { diagnosisOf, recordedOf, workbenchOf } from './session-of.js';

const BLOWN = [
  'lights on',
  'beam main',
  'H2.56a off',
  'H1.56a lit',
  'prove volts',
  'volts F2.2 0.02',
  'volts F2.1 11.4',
];
const OPENED = ['lights off', 'unplug X2', 'prove ohms'];

test.each([
  ['OL', false],
  ['0.1', true],
])(
  'when the blown circuit of a lamp reads %s to body beside another fault then a short at the lamp stays suspected: %s',
  async (ohms, stays) => {
    const bench = await workbenchOf('headlamps-switch');
    const dim = ['beam dipped', 'H1.56b off', 'H2.56b lit', 'volts F3.1 1.16'];
    const pair = ['H2.56a short', 'SP3/W9 resistance'].map((id) =>
      bench.faults.find((fault) => fault.id === id)!,
    );
    const recorded = recordedOf(bench, [...BLOWN, ...dim, ...OPENED, `ohms X2.56ac body ${ohms}`]);
    const { fall } = judge(bench, pair, gather(bench, foldCase(bench.circuit, recorded)));
    expect(fall === undefined).toBe(stays);
  },
);

describe('a chafed wire that blew its fuse and hangs free when somebody measures', () => {
  const measured = [...BLOWN, ...OPENED, 'ohms X2.56ah body OL', 'take out F2', 'ohms F2.1i F2.2i OL'];
  const again = [
    'replace F2',
    'plug X2',
    'lights on',
    'H2.56a lit',
    'H2.56a off',
    'volts F2.2 0.02',
    'volts F2.1 11.4',
  ];

  test('when no ohms to body are found then it is likely no more, and not ruled out', async () => {
    const bench = await workbenchOf('headlamps-switch');
    const wire = diagnosisOf(bench, measured).suspects.find(({ hypothesis }) => hypothesis === 'W20 short');
    expect(wire).toMatchObject({ course: 'comes and goes', away: true });
    expect(wire!.share).toBeLessThan(0.01);
  });

  test('when the new fuse blows too then it is there again', async () => {
    const bench = await workbenchOf('headlamps-switch');
    const { suspects } = diagnosisOf(bench, [...measured, ...again]);
    const wire = suspects.find(({ hypothesis }) => hypothesis === 'W20 short');
    expect(wire).toMatchObject({ course: 'comes and goes', away: false });
    expect(wire!.share).toBeGreaterThan(0.01);
  });

  test('when it has gone then neither a test nor a repair is suggested for it', async () => {
    const bench = await workbenchOf('headlamps-switch');
    const session = foldCase(bench.circuit, recordedOf(bench, measured));
    const diagnosis = assess(bench, session);
    const { tests, attempt } = advise(bench, session, diagnosis);
    expect(diagnosis.groups[attempt!.group]!.repair.how).toContain('replace F2');
    expect(tests.length).toBeGreaterThan(0);
    expect(JSON.stringify(tests.map(({ outcomes }) => outcomes))).not.toContain('W20');
  });
});
