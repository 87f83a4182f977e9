/** What a report says of fuses, breakers and module outputs that opened. Common practice in the trade, no source. */
import { describe, expect, test } from 'vitest';
import { openedWords } from '../../src/report/symptom-words.js';
import { fault } from './report-case.js';

const reasons = [
  { why: 'short', faults: [fault('W5')], share: 0.6 },
  { why: 'old age', faults: [], share: 0.4 },
] as const;

describe('what has opened', () => {
  test('when a fuse melted then it is blown, and a lamp in its place comes before the next one', () => {
    const words = openedWords({ fuse: 'F1', reasons });
    expect(words).toContain('F1 is blown. That is a symptom. What may have blown it: a short 60 %');
    expect(words).toContain('Before another fuse goes in: a test lamp in its place (lamp F1)');
  });

  test.each([
    ['automatic', 'It closes again when it is cool, and opens again while a short is there'],
    ['manual', 'Before it is reset: ohms to body'],
    ['electronic', 'Before it is reset: ohms to body'],
  ] as const)(
    'when it closes again (%s) then it has opened, and no other fuse is spoken of',
    (resets, then) => {
      const words = openedWords({ fuse: 'CB1', resets, reasons });
      expect(words).toContain('CB1 has opened. That is a symptom. What may have opened it: a short 60 %');
      expect(words).toContain(then);
      expect(words).not.toMatch(/blown|another fuse|lamp CB1/);
    },
  );

  test('when only some of the suspects open it then it may have', () => {
    const [short] = reasons;
    expect(openedWords({ fuse: 'CB1', resets: 'manual', reasons: [short] })).toContain(
      'CB1 may have opened (60 %)',
    );
    expect(openedWords({ fuse: 'F1', reasons: [short] })).toContain('F1 may be blown (60 %)');
  });

  test('when no short is among the reasons then it may simply be put in again', () => {
    expect(openedWords({ fuse: 'CB1', resets: 'manual', reasons: [reasons[1]] })).not.toContain('Before');
  });
});
