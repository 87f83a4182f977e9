/** The text, Markdown and JSON forms of one report. */
import { describe, expect, test } from 'vitest';
import type { Event } from '../../src/session/events.js';
import { printReport } from '../../src/report/report.js';
import { diagnosisOf, fault, lamp, reportOf, sense, suspect } from './report-case.js';

const events: readonly Event[] = [
  {
    type: 'concern',
    concern: {
      complaint: 'tail lamp dead since the wet week – “nothing helps”',
      vehicle: 'demo van, plate DEMO 1',
      odometer: '120000 km',
      technician: 'T. Tester',
      customer: 'C. Customer',
      history: ['recent work: tow bar fitted'],
      meter: 'demo meter',
    },
  },
  lamp('off'),
  {
    type: 'found',
    reading: { kind: 'volts', red: 'X1.1h', black: 'bat-', value: { value: 12.5, step: 0.1 } },
    when: [['lamps', 'on']],
  },
  { type: 'assumed', part: 'H1' },
  { type: 'noted', text: 'an extra relay was found \u001b[31mhere' },
  { type: 'did', action: { do: 'clean', at: 'X1.1' } },
  lamp('lit'),
];
const diagnosis = diagnosisOf(
  [
    suspect('X1.1', {
      severities: [{ unit: 'ohm', value: 1e9, low: 212.4, high: Infinity, steals: undefined }],
    }),
  ],
  {
    fallen: [
      {
        hypothesis: 'F1',
        faults: [fault('F1:link', 'F1', 'F1 blown')],
        reason: { finding: 4, prediction: '0 to 0.1 V', reading: '12.5 V' },
      },
    ],
    findings: [sense(3, true), sense(4, false, 'F1 and its feed carry voltage')],
  },
);
const report = reportOf(events, diagnosis, { cautions: ['Follow the procedure.'] });
const text = printReport(report, 'text');

describe('text form', () => {
  test('when printed then no line is wider than 80 columns', () => {
    expect(text.split('\n').filter((line) => line.length > 80)).toEqual([]);
  });

  test('when read from the top then the customer paragraph comes first, then concern, cause, correction', () => {
    const order = ['FOR THE CUSTOMER', 'CONCERN', 'CAUSE', 'CORRECTION', 'VEHICLE', 'FINDINGS', 'SIGNATURES'];
    const places = order.map((title) => text.indexOf(`\n${title}`));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBeGreaterThan(0);
  });

  test('when a reading is listed then its time, probe points and what it proved stand with it', () => {
    const flat = text.replace(/\s+/g, ' ');
    expect(flat).toContain('4 10:03 measured: 12.5 V: red X1.1h');
    expect(flat).toContain('black battery negative');
    expect(flat).toContain('proved: F1 and its feed carry voltage');
  });

  test('when a figure was predicted or fitted then it is marked so', () => {
    const flat = text.replace(/\s+/g, ' ');
    expect(flat).toContain('[predicted for what it rules out: 0 to 0.1 V]: F1');
    expect(flat).toContain('(calculated, not measured): open circuit (at least 210 ohm) at X1.1');
  });

  test('when a part was assumed then it is listed again', () => {
    expect(text).toMatch(/ASSUMED GOOD, NOT TESTED\n {2}- H1 \(tail lamp\)/);
  });

  test('when a note holds terminal sequences then none reaches the page', () => {
    expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/);
    expect(text).toContain('an extra relay was found here');
  });

  test('when ascii is asked for then only ASCII is printed', () => {
    const ascii = printReport(report, 'text', { ascii: true });
    expect(ascii).toMatch(/^[\n\x20-\x7e]+$/);
    expect(ascii.replace(/\s+/g, ' ')).toContain('wet week - "nothing helps"');
  });

  test('when people write only ASCII then the words of the report are ASCII by themselves', () => {
    const plain = reportOf([lamp('off')], diagnosis);
    expect(printReport(plain, 'text')).toMatch(/^[\n\x20-\x7e]+$/);
  });

  test('when printed then version, session and circuit are named at the foot', () => {
    expect(text).toContain('knowngood 0.1.0; session f00d; circuit cautions abc123');
  });
});

describe('personal data', () => {
  const without = reportOf(events, diagnosis, { personal: false });

  test.each(['text', 'markdown', 'json'] as const)(
    'when removed then no name stands in the %s form',
    (form) => {
      const page = printReport(without, form);
      for (const name of ['T. Tester', 'C. Customer', 'DEMO 1']) expect(page).not.toContain(name);
      expect(page).toContain('removed');
    },
  );

  test('when kept then the names stand there', () => {
    expect(text).toContain('T. Tester');
  });
});

describe('other forms', () => {
  test('when written as JSON then it reads back as the same report with its schema number', () => {
    const back = JSON.parse(printReport(report, 'json')) as unknown;
    expect(back).toEqual(JSON.parse(JSON.stringify(report)));
    expect(back).toMatchObject({ schema: 1, kind: 'knowngood report' });
  });

  test('when written as Markdown then words from people are not markup', () => {
    const sly = reportOf([{ type: 'noted', text: '<b>*x*</b> | y' }, lamp('off')], diagnosis);
    expect(printReport(sly, 'markdown')).toContain('- \\<b\\>\\*x\\*\\</b\\> \\| y');
  });

  test('when written as Markdown then every section of the text form has its heading', () => {
    const headings = printReport(report, 'markdown').match(/^## .*/gm) ?? [];
    for (const heading of headings)
      expect(text.replace(/\\/g, '')).toContain(heading.slice(3).replace(/\\/g, '').toUpperCase());
    expect(headings.length).toBeGreaterThan(15);
  });
});
