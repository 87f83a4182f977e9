import { describe, expect, test } from 'vitest';
import {
  parseContinuity,
  parseMeter,
  parseOhms,
  parseSkipReason,
  parseTestLamp,
} from '../../src/session/parse-reading.js';
import { parseLook, parseSight, type LoadKind } from '../../src/session/parse-sight.js';

const volts = (text: string) => parseMeter(text, 'volts');
const ok = (value: unknown) => ({ ok: true, value });

describe('volts and amps', () => {
  test.each([
    ['11.4', 11.4, 0.1],
    ['11,4', 11.4, 0.1],
    ['11.4V', 11.4, 0.1],
    ['11.4 volts', 11.4, 0.1],
    ['12', 12, 1],
    ['12.', 12, 1],
    ['.5', 0.5, 0.1],
    ['450mV', 0.45, 0.001],
    ['450 MV', 0.45, 0.001],
    ['0.45', 0.45, 0.01],
    ['-0.3', -0.3, 0.1],
    ['−0.3', -0.3, 0.1],
    ['- 0.3', -0.3, 0.1],
    ['+12.60', 12.6, 0.01],
    ['-0.00', 0, 0.01],
    ['12V4', 12.4, 0.1],
    ['1.0', 1, 0.1],
  ])('when %j is typed for volts then it is %d with a last digit of %d', (text, value, step) => {
    expect(volts(text)).toEqual(ok({ value: { value, step }, battery: undefined }));
  });

  test.each([
    ['11.8/12.4', 11.8, 12.4],
    ['11,8 / 12,4', 11.8, 12.4],
    ['11.8V/12.4V', 11.8, 12.4],
  ])('when %j is typed then the second value is the battery', (text, here, battery) => {
    expect(volts(text)).toEqual(
      ok({ value: { value: here, step: 0.1 }, battery: { value: battery, step: 0.1 } }),
    );
  });

  test.each([
    ['11.4A', /amps.*volts/],
    ['11.4 ohm', /ohms.*volts/],
    ['OL', /over its range/],
    ['11.4.2', /not a reading/],
    ['11 4', /not a reading/],
    ['1e3', /not a reading|not a unit/],
    ['eleven', /not a reading/],
    ['11.4 banana', /"banana" is not a unit/],
    ['11400', /more than any reading/],
    ['1/2/3', /more than one "\/"/],
    ['12/', /no value/],
    ['', /no value/],
    ['NaN', /not a reading/],
    ['Infinity', /over its range/],
    ['0x10', /not a unit|not a reading/],
  ])('when %j is typed for volts then the error says what is wrong', (text, message) => {
    const parsed = volts(text);
    expect(parsed).toMatchObject({ ok: false, message: expect.stringMatching(message) as string });
    expect(parsed.ok || parsed.mend.length).toBeGreaterThan(5);
  });

  test('when amps are typed then milliampere count as thousandths and a sign is refused', () => {
    expect(parseMeter('20mA', 'amps')).toEqual(
      ok({ value: { value: 0.02, step: 0.001 }, battery: undefined }),
    );
    expect(parseMeter('1,75 / 12.1', 'amps')).toEqual(
      ok({ value: { value: 1.75, step: 0.01 }, battery: { value: 12.1, step: 0.1 } }),
    );
    expect(parseMeter('-2', 'amps')).toMatchObject({ ok: false, mend: 'Type 2.' });
  });
});

describe('ohms', () => {
  test.each([
    ['0.3 ohm', 0.3, 0.1],
    ['0.3Ω', 0.3, 0.1],
    ['0.3Ω', 0.3, 0.1],
    ['0,3', 0.3, 0.1],
    ['1.2k', 1200, 100],
    ['1.2 kohm', 1200, 100],
    ['1k2', 1200, 100],
    ['1K25', 1250, 10],
    ['4R7', 4.7, 0.1],
    ['2M2', 2_200_000, 100_000],
    ['2.2M', 2_200_000, 100_000],
    ['2m', 0.002, 0.001],
    ['85', 85, 1],
    ['-0.1', -0.1, 0.1],
  ])('when %j is typed then it is %d ohms with a last digit of %d', (text, value, step) => {
    expect(parseOhms(text)).toEqual(ok({ value, step }));
  });

  test.each(['OL', 'ol', 'O.L', '0L', '0.L', 'open', 'inf', 'infinite', '∞', 'overload'])(
    'when %j is typed then the meter shows no end value',
    (text) => expect(parseOhms(text)).toEqual(ok('OL')),
  );

  test.each([
    ['beep', /continuity answer/],
    ['no', /continuity answer/],
    ['3.4V', /volts.*ohms/],
    ['0.3/12.4', /do not go with/],
    ['-40', /live/],
  ])('when %j is typed for ohms then the error says what is wrong', (text, message) => {
    expect(parseOhms(text)).toMatchObject({ ok: false, message: expect.stringMatching(message) as string });
  });
});

describe('answers in words', () => {
  test.each([
    ['beep', 'beep'],
    ['Yes', 'beep'],
    ['no beep', 'no beep'],
    ['no-beep', 'no beep'],
    ['n', 'no beep'],
    ['OL', 'no beep'],
  ])('when the buzzer answer is %j then it is %j', (text, value) =>
    expect(parseContinuity(text)).toEqual(ok(value)),
  );

  test('when ohms are typed for the buzzer then the error shows the line for ohms', () => {
    expect(parseContinuity('0.3')).toMatchObject({ ok: false, mend: 'To record ohms type: ohms A B 0.3' });
  });

  test.each([
    ['lit', 'lit'],
    ['ON', 'lit'],
    ['glows', 'dim'],
    ['dark', 'off'],
  ])('when the test lamp is %j then it is %j', (text, value) =>
    expect(parseTestLamp(text)).toEqual(ok(value)),
  );

  test.each<[LoadKind, string, string]>([
    ['lamp', 'lit', 'lit'],
    ['lamp', 'Bright', 'lit'],
    ['lamp', 'dim', 'dim'],
    ['lamp', 'dead', 'off'],
    ['lamp', 'flickers', 'flickers'],
    ['lamp', 'comes  and goes', 'flickers'],
    ['horn', 'sounds', 'sounds'],
    ['horn', 'quiet', 'weak'],
    ['horn', 'off', 'silent'],
    ['motor', 'runs', 'runs'],
    ['motor', 'slow', 'slow'],
    ['motor', 'does not turn', 'stopped'],
    ['relay', 'clicks', 'clicks'],
    ['relay', 'buzzes', 'chatters'],
    ['relay', 'no click', 'silent'],
  ])('when a %s is seen to be %j then it is recorded as %j', (kind, text, sight) =>
    expect(parseSight(text, kind)).toEqual(ok(sight)),
  );

  test('when a word belongs to another kind of load then the error says so', () => {
    expect(parseSight('clicks', 'lamp')).toMatchObject({
      ok: false,
      message: 'A lamp is not "clicks"; that is said of a relay',
    });
    expect(parseSight('purple', 'lamp')).toMatchObject({
      ok: false,
      mend: expect.stringContaining('lit, dim, off') as string,
    });
  });

  test.each([
    ['blown', 'blown'],
    ['melted', 'burnt'],
    ['green', 'corroded'],
    ['damp', 'wet'],
    ['wrong lamp', 'wrong part'],
  ])('when a part looks %j then it is recorded as %j', (text, look) =>
    expect(parseLook(text)).toEqual(ok(look)),
  );

  test.each([
    ['cannot tell', 'cannot tell'],
    ["can't  reach", 'cannot reach'],
    ['can not tell', 'cannot tell'],
    ['no tool', 'no tool'],
    ['no meter', 'no tool'],
    ['11.4', undefined],
  ])('when the answer is %j then the reason for skipping is %j', (text, why) =>
    expect(parseSkipReason(text)).toBe(why),
  );
});
