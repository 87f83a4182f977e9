/** A click and a rattle are told apart: a starter that clicks once and one that chatters. Common practice in the trade, no source. */
import { describe, expect, test } from 'vitest';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';

const CRANKED = ['master switch on', 'gear neutral', 'key start'];
const bench = await workbenchOf('starter-24v');
const suspects = (...lines: string[]): string[] => suspectIds(diagnosisOf(bench, [...CRANKED, ...lines]));

describe('the contactor of a starter', () => {
  const measured = [
    'M1 stopped',
    'volts bat+ S4.2 0.02/22.4',
    'volts K2.86 bat- 21.5/22.4',
    'volts K2.30 K2.87 22.4/22.4',
  ];

  test('when it clicks once and its contact keeps the volts then nothing before it that would make it chatter is left', () => {
    const left = suspects('K1 clicks', 'K2 clicks', ...measured);
    expect(left).toContain('K2:30-87 resistance');
    expect(left.filter((id) => /^(S4|GP1|GP3|B1|M1:winding)/.test(id))).toEqual([]);
  });

  test('when it chatters then a bad joint in the main cable stays suspected, whatever a meter showed', () => {
    expect(suspects('K2 chatters', ...measured)).toContain('S4:1-2 resistance');
  });

  test('when it was not listened to then it may have chattered', () => {
    expect(suspects(...measured)).toContain('S4:1-2 resistance');
  });
});
