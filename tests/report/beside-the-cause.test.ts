/** What stands beside the cause in the report: soft evidence, assumptions, blown fuses, what could not show, what stays open. */
import { describe, expect, test } from 'vitest';
import { printReport, type ReportForm } from '../../src/report/report.js';
import { diagnosisOf, fault, lamp, reportOf, suspect } from './report-case.js';

const told = suspect('X1.1', {
  share: 0.7,
  measuredShare: 0.4,
  soft: [{ finding: 4, factor: 2, words: 'X1 looks corroded' }],
  explains: [{ finding: 2, prediction: 'off', reading: 'off', healthy: 'lit' }],
});
const diagnosis = diagnosisOf([told, suspect('H1.1', { share: 0.3, measuredShare: 0.6 })], {
  assumedAway: [fault('S1:1-2', 'S1')],
  blown: [
    {
      fuse: 'F1',
      reasons: [
        { why: 'old age', faults: [], share: 0.1 },
        { why: 'short', faults: [fault('W5', 'W5', 'short to body metal: wire W5')], share: 0.6 },
      ],
    },
  ],
  hidden: [
    {
      behind: fault('X1.1'),
      faults: [fault('H1 short', 'H1', 'H1 shorted')],
      advice: 'Look again after it.',
    },
  ],
  open: [{ what: 'a reading is wrong', advice: 'take #2 again', findings: [2], share: 0.02 }],
});
const report = reportOf([lamp('off')], diagnosis, {
  weakLinks: [{ finding: 2, without: 'clean ground GP2', advice: '' }],
  alike: [
    {
      faults: [fault('X1.1'), fault('W6')],
      lookHere: ['X1 at X1.1: pins green?', 'X1 at X1.2: pins green?', 'W6: thin spots.'],
      access: ['X1.1c'],
    },
  ],
});
const flat = (form: ReportForm): string => printReport(report, form).replace(/\\/g, '').replace(/\s+/g, ' ');

describe.each(['text', 'markdown'] as const)('the %s form', (form) => {
  test.each([
    ['the share without soft evidence', 'Share of what remains: 70 %; by measurements alone 40 %.'],
    ['what the cause explains', 'finding 2 was off [predicted: off; healthy: lit]'],
    ['soft evidence', '#4 speaks for it: X1 looks corroded [high resistance or open at X1.1]'],
    ['what an assumption takes away', 'S1, taken as good without a test, would still fit'],
    [
      'a blown fuse as a symptom',
      'F1 may be blown (70 %): that is a symptom. What may have blown it: a short 60 % (wire W5); old age 10 %.',
    ],
    ['how not to sacrifice another fuse', 'lamp F1'],
    ['what could not show', 'H1 shorted. Look again after it.'],
    ['what stays open', 'a reading is wrong (2 %): take #2 again'],
    [
      'on which finding the answer hangs',
      'If finding #2 were wrong, this would lead: clean ground GP2. Take it again?',
    ],
    ['what no test tells apart', 'Look here: X1 at X1.1, X1.2: pins green?'],
  ])('when there is %s then it is told', (_title, words) => {
    expect(flat(form)).toContain(words);
  });
});

test('when nothing of it is known then no empty section stands there', () => {
  const plain = printReport(reportOf([lamp('off')], diagnosisOf([suspect('X1.1')])), 'text');
  expect(plain).not.toMatch(/SOFT|BLOWN|SHOW SO FAR|TOLD APART|WERE WRONG|ALWAYS OPEN/);
});

test('when explanations are unlikely then they stand together by their parts', () => {
  const small = ['W5', 'W6', 'W7'].map((site) => suspect(site, { share: 0.001, measuredShare: 0.001 }));
  const { remaining } = reportOf([lamp('off')], diagnosisOf([suspect('X1.1'), suspect('H1.1'), ...small]));
  expect(remaining).toEqual([
    'high resistance or open at H1.1 (50 %)',
    '3 more under 1 % each, at: W5, W6, W7',
  ]);
});

test('when a suspect was disturbed but it never worked again then the report does not say it did', () => {
  const { cause } = reportOf([lamp('off')], diagnosisOf([suspect('X1.1', { touched: true })]));
  expect(cause.certainty).toBe('most likely');
  expect(cause.grounds).not.toContain('worked again');
});

describe('for the customer', () => {
  const contacts = ['K1.85', 'K1.86', 'K1.30'].map((site) =>
    suspect(site, {
      faults: [
        { ...fault(site, 'K1', `high resistance or open: contact at ${site}`), id: `${site} resistance` },
      ],
    }),
  );
  const group = [{ repair: contacts[0]!.faults[0]!.repair, suspects: contacts, share: 1 }];

  test('when many contacts of one part remain then the part is named once', () => {
    const { customer, cause } = reportOf([lamp('off')], diagnosisOf(contacts, { groups: group }));
    expect(customer).toContain('is a bad contact at K1;');
    expect(cause.faults).toHaveLength(3);
  });

  test('when two contacts of one part remain then the part is named once as well', () => {
    const two = contacts.slice(0, 2);
    const { customer, cause } = reportOf(
      [lamp('off')],
      diagnosisOf(two, { groups: [{ ...group[0]!, suspects: two }] }),
    );
    expect(customer).toContain('is a bad contact at K1;');
    expect(cause.faults).toHaveLength(2);
  });

  test('when one contact of each of two parts remains then both are named in full', () => {
    const both = [contacts[0]!, suspect('X1.1')];
    const { customer } = reportOf(
      [lamp('off')],
      diagnosisOf(both, { groups: [{ ...group[0]!, suspects: both }] }),
    );
    expect(customer).toContain('contact at K1.85 or high resistance or open at X1.1;');
  });

  test('when something else of the part remains beside its contacts then it is not called a contact', () => {
    const coil = suspect('K1:coil', {
      faults: [{ ...fault('K1:coil', 'K1', 'open coil: K1'), id: 'K1:coil open' }],
    });
    const all = [contacts[0]!, coil];
    const { customer } = reportOf(
      [lamp('off')],
      diagnosisOf(all, { groups: [{ ...group[0]!, suspects: all }] }),
    );
    expect(customer).toContain('is a fault at K1 or its contacts;');
  });

  test('when two faults are needed together then both are told in full', () => {
    const pair = suspect('pair', { faults: contacts.slice(0, 2).map(({ faults }) => faults[0]!) });
    const { customer } = reportOf([lamp('off')], diagnosisOf([pair]));
    expect(customer).toContain('contact at K1.85, together with high resistance or open: contact at K1.86');
  });
});
