/** The list of suspects on screen, from hand-made diagnoses: pairs, threes, severities, what is open, nothing that fits. */
import { describe, expect, test } from 'vitest';
import type { Diagnosis, OpenQuestion, Suspect } from '../../src/diagnosis/diagnosis-types.js';
import { showSuspects } from '../../src/cli/show/suspects.js';
import { diagnosisOf, fault, sense, suspect } from '../report/report-case.js';

const screen = (diagnosis: Diagnosis, most?: number): string =>
  showSuspects(diagnosis, most).join('\n').replace(/\s+/g, ' ');
const mend = (site: string): Suspect['faults'][number] => ({
  ...fault(site),
  repair: { how: `mend ${site}`, minutes: 5, price: 0 },
});
const together = (share: number, ...sites: readonly string[]): Suspect =>
  suspect(sites.join(' + '), { faults: sites.map(mend), share, measuredShare: share });
const paired = (suspects: readonly Suspect[], more: Partial<Diagnosis> = {}): Diagnosis =>
  diagnosisOf(suspects, {
    paired: true,
    pairsExamined: { done: 90, of: 120 },
    groups: suspects.map((one) => ({
      repair: { how: one.faults.map(({ repair }) => repair.how).join(' and '), minutes: 10, price: 0 },
      suspects: [one],
      share: one.share,
    })),
    ...more,
  });
const open: readonly OpenQuestion[] = [
  { what: 'no fault now', advice: 'repeat the failed condition', findings: [], share: 0.1 },
  { what: 'a reading is wrong', advice: 'take #4 again', findings: [4], share: 0.4 },
  { what: 'the drawing differs', advice: 'look for added wires', findings: [], share: 0.02 },
];

describe('several faults', () => {
  test('when two at once are needed then it is said how many pairs were tried, and the common one stands once', () => {
    const shown = screen(paired([together(0.6, 'X1.1', 'H1'), together(0.4, 'GP2', 'X1.1')]));
    expect(shown).toContain('Two together that do (90 of 120 pairs tried)');
    expect(shown).toContain('Nearly always: mend X1.1; and with it: 60 % mend H1 (10 min)');
    expect(shown).toContain('40 % mend GP2 (10 min)');
    expect(shown.match(/mend X1\.1/g)).toHaveLength(1);
  });

  test('when three at once are needed then it is said that not all threes were tried', () => {
    const shown = screen(paired([together(1, 'X1.1', 'H1', 'GP2')], { triples: true }));
    expect(shown).toContain('not all threes were tried');
  });
});

describe('one fault', () => {
  const bad = {
    unit: 'ohm',
    value: 4.1,
    low: 3.6,
    high: 4.9,
    steals: { volts: 1.9, condition: 'with pedal down' },
  } as const;

  test('when a severity was fitted then value, range, place and the volts it takes stand under the leader', () => {
    const shown = screen(diagnosisOf([suspect('GP5', { severities: [bad] }), suspect('X1.1')]));
    expect(shown).toContain('4.1 ohm, 3.6 to 4.9, at GP5; it takes 1.9 V with pedal down');
  });

  test('when it fits only as one that comes and goes then it is said', () => {
    const shown = screen(diagnosisOf([suspect('X1.1', { course: 'comes and goes' })]));
    expect(shown).toContain('fits only as a fault that comes and goes');
  });

  test('when soft evidence moved the share then both shares stand there, and what moved it', () => {
    const soft = [{ finding: 7, factor: 3, words: 'X1 looks corroded' }];
    const shown = screen(diagnosisOf([suspect('X1.1', { share: 0.8, measuredShare: 0.4, soft })]));
    expect(shown).toContain('80 % clean');
    expect(shown).toContain(
      'by measurements alone 40 %; the rest is not proof: #7 speaks for it: X1 looks corroded',
    );
  });
});

test('when soft evidence speaks for others then that is said of the share that sank', () => {
  const shown = screen(diagnosisOf([suspect('X1.1', { share: 0.2, measuredShare: 0.5 })]));
  expect(shown).toContain('by measurements alone 50 %; what moved it speaks for others');
});

describe('what is open', () => {
  test('when something fits then it stands in one line at the end, the heavy one with its check', () => {
    const shown = screen(diagnosisOf([suspect('X1.1')], { open }));
    expect(shown).toMatch(
      /Open as well: no fault now 10 %, a reading is wrong 40 %, the drawing differs 2 % a reading is wrong: take #4 again$/,
    );
  });

  test('when nothing fits then the three stand in their order, with the readings to take again and how to redraw', () => {
    const findings = [{ ...sense(4, true), reading: '1.21 V', prediction: '12.1 V' }];
    const shown = screen(diagnosisOf([], { fits: false, open, findings }));
    expect(shown).toContain('a reading is wrong: take #4 again #4 was 1.21 V; a healthy vehicle: 12.1 V');
    expect(shown.indexOf('no fault now')).toBeLessThan(shown.indexOf('a reading is wrong'));
    expect(shown).toContain('redraw');
  });
});
