/** What goes on and off, or comes and goes, reads differently from moment to moment: a forecast must not promise more than that. */
import { beforeAll, describe, expect, test } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { Agreement } from '../../src/planning/agreement.js';
import { surroundingsOf } from '../../src/planning/battery-known.js';
import { batteryRead } from '../../src/planning/battery-read.js';
import { forecasterOf } from '../../src/planning/forecast.js';
import { LIKELY } from '../../src/planning/next.js';
import { outcomesOf } from '../../src/planning/outcome-words.js';
import { Scales } from '../../src/planning/weigh.js';
import type { Reading } from '../../src/session/events.js';
import { foldCase } from '../../src/session/fold.js';
import { recordedOf, workbenchOf } from '../diagnosis/session-of.js';

const sessionOf = (bench: Workbench, lines: readonly string[]) =>
  foldCase(bench.circuit, recordedOf(bench, lines));

describe('when a lamp should flash', () => {
  let bench: Workbench;
  beforeAll(async () => {
    bench = await workbenchOf('turn-hazard');
  });

  function spans(reading: Reading): number[] {
    const session = sessionOf(bench, ['key on', 'turn lever left', 'H1 off', 'H7 flashes']);
    const scales = new Scales(bench, session, diagnose(bench, session), LIKELY);
    const { from, to } = scales.outlook({ reading, setUp: session.now, wiggle: undefined })!;
    const at = scales.likely.findIndex(({ name }) => name === 'H1');
    const version = scales.versionOf[at]!;
    return [from[version]!, to[version]!];
  }

  test('then a voltmeter at it may show either moment', () => {
    const value = { value: 0, step: 0.01 };
    const [from, to] = spans({ kind: 'volts', red: 'H1.1', black: 'bat-', value });
    const [, rest] = spans({ kind: 'volts', red: 'H1.31', black: 'bat-', value });
    expect(from).toBeLessThan(rest!);
    expect(to! - from!).toBeGreaterThan(20);
  });

  test('then a test lamp at it is judged by the bright one', () => {
    const [from, to] = spans({
      kind: 'test lamp',
      red: 'H1.1',
      black: 'bat-',
      value: 'off',
      lamp: 'filament',
    });
    // Lit is the first class, off the third: a feed that is good half of the time is not off.
    expect(from).toBe(0);
    expect(to).toBeLessThanOrEqual(2);
  });
});

describe('when a complaint comes and goes', () => {
  test('then readings taken while it was away speak against no severity', async () => {
    const bench = await workbenchOf('coolant-sensor');
    const session = sessionOf(bench, [
      ...['key on', 'coolant hot', 'M1 stopped', 'M1 runs', 'prove volts'],
      ...['volts K1.30 12.4', 'M1 stopped'],
    ]);
    const agreement = new Agreement(
      bench,
      session,
      forecasterOf(bench, session),
      surroundingsOf(bench, session),
    );
    const fault = bench.faults.find(({ id }) => id === 'F2.1 resistance')!;
    const open = { key: 'open', faults: [fault.apply(Infinity)], blown: 0 };
    expect(agreement.misfits(open)).toBe(0);
  });
});

describe('when the battery was read', () => {
  test('then forecasts are made for it, unless it is lower than a healthy one', async () => {
    const bench = await workbenchOf('horn');
    const read = (...volts: string[]) =>
      batteryRead(bench, sessionOf(bench, ['prove volts', ...volts.map((each) => `volts bat+ ${each}`)]));
    expect(read()).toBeUndefined();
    expect(read('12.2')).toBe(12);
    expect(read('12.2', '12.8', '12.9')).toBe(13);
    expect(read('6.2')).toBeUndefined();
  });
});

describe('when a breaker that cools by itself has opened', () => {
  let bench: Workbench;
  let scales: Scales;
  let session: ReturnType<typeof sessionOf>;
  beforeAll(async () => {
    bench = await workbenchOf('wipers');
    session = sessionOf(bench, ['key on', 'wiper lever fast', 'wiper arms on the way', 'see M1 stopped']);
    scales = new Scales(bench, session, diagnose(bench, session), LIKELY);
  });
  const value = { value: 0, step: 0.01 };
  const versionOf = (name: RegExp) => scales.versionOf[scales.likely.findIndex(({ key }) => name.test(key))]!;

  test('then volts behind it may be read or not, and tell nothing of a seized motor', () => {
    const reading: Reading = { kind: 'volts', red: 'CB1.2', black: 'bat-', value };
    const outlook = scales.outlook({ reading, setUp: session.now, wiggle: undefined })!;
    const seized = versionOf(/^M1:winding seized/);
    expect(outlook.unsure![seized]).toBe(1);
    expect(outlook.to[seized]! - outlook.from[seized]!).toBeGreaterThan(20);
    // A breaker that does not conduct at all stays at nothing.
    expect(
      outlook.unsure![scales.versionOf[scales.likely.findIndex(({ at }) => at.includes('CB1:bimetal'))]!],
    ).toBe(0);
  });

  test('then what may read either way stands apart from what each reading would mean', () => {
    const reading: Reading = { kind: 'load', load: 'M1', value: 'stopped' };
    const candidate = { reading, setUp: session.now } as Parameters<Scales['members']>[0];
    const outcomes = outcomesOf(bench, reading, scales.members(candidate));
    expect(outcomes.at(-1)).toMatchObject({ when: 'any reading', means: expect.stringContaining('breaker') });
    expect(outcomes.map(({ when }) => when)).not.toContain('runs or stopped');
    expect(outcomes.reduce((sum, { chance }) => sum + chance, 0)).toBeGreaterThan(0.95);
  });

  test('then a version agrees with either reading', () => {
    const lines = ['prove volts', 'volts CB1.2 0.00', 'volts CB1.2 11.5'];
    const later = sessionOf(bench, [
      ...['key on', 'wiper lever fast', 'wiper arms on the way', 'see M1 stopped'],
      ...lines,
    ]);
    const forecaster = forecasterOf(bench, later);
    const agreement = new Agreement(bench, later, forecaster, surroundingsOf(bench, later));
    const seized = scales.likely.find(({ key }) => /^M1:winding seized/.test(key))!;
    expect(agreement.misfits(seized)).toBe(0);
  });
});
