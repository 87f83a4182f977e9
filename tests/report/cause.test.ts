/** The report never claims more than the readings and the repair prove (design: "confirmed"). */
import { describe, expect, test } from 'vitest';
import type { Event } from '../../src/session/events.js';
import { diagnosisOf, fault, lamp, reportOf, suspect } from './report-case.js';

const did = (action: Extract<Event, { type: 'did' }>['action']): Event => ({ type: 'did', action });
const cleaned = did({ do: 'clean', at: 'X1.1' });
const two = diagnosisOf([suspect('X1.1'), suspect('H1.1')]);

describe('cause', () => {
  test('when several explanations remain then the first is only "most likely"', () => {
    const { cause } = reportOf([lamp('off')], two);
    expect(cause).toMatchObject({ certainty: 'most likely', parts: ['X1'] });
  });

  test('when one explanation remains then it is "only one left", not confirmed', () => {
    const report = reportOf([lamp('off')], diagnosisOf([suspect('X1.1')]));
    expect(report.cause.certainty).toBe('only one left');
    expect(report.customer).toContain('not confirmed');
  });

  test('when the diagnosis has positive evidence then it is confirmed', () => {
    const { cause } = reportOf([lamp('off')], diagnosisOf([suspect('X1.1', { confirmed: true })]));
    expect(cause.certainty).toBe('confirmed');
  });

  test('when it failed until the repair and was good after it then it is confirmed', () => {
    const report = reportOf([lamp('off'), cleaned, lamp('lit')], two);
    expect(report.cause).toMatchObject({ certainty: 'confirmed', parts: ['X1'] });
    expect(report.verification.state).toBe('verified');
    expect(report.customer).toContain('fit to use');
  });

  test('when it still failed after the first repair then the second is the one that cured it', () => {
    const again = did({ do: 'clean', at: 'H1.1' });
    const { cause } = reportOf([lamp('off'), cleaned, lamp('off'), again, lamp('lit')], two);
    expect(cause).toMatchObject({ certainty: 'confirmed', parts: ['H1'] });
  });

  test('when what cured it is no suspect then nothing that was repaired in vain is confirmed', () => {
    const again = did({ do: 'clean', at: 'H1.2' });
    const { cause } = reportOf(
      [lamp('off'), cleaned, lamp('off'), again, lamp('lit')],
      diagnosisOf([suspect('X1.1'), suspect('S1.1')]),
    );
    expect(cause.certainty).toBe('most likely');
  });

  test('when both were repaired before it was tried then neither is in vain', () => {
    const { cause } = reportOf(
      [lamp('off'), cleaned, did({ do: 'clean', at: 'H1.2' }), lamp('lit')],
      diagnosisOf([suspect('X1.1')]),
    );
    expect(cause).toMatchObject({ certainty: 'confirmed', parts: ['X1'] });
  });

  test('when a new item cured it then the removed item is still not proved bad', () => {
    const report = reportOf([lamp('off'), did({ do: 'fit new', part: 'H1' }), lamp('lit')], two);
    expect(report.cause).toMatchObject({ certainty: 'confirmed', parts: ['H1'] });
    expect(report.cause.grounds).toContain('not proved bad');
    expect(report.replaced).toEqual(['H1 (tail lamp)']);
  });

  test('when work at a whole part cured it then its item and its contacts are named alike', () => {
    const at = ['S1:1-2', 'S1.1', 'S1.2'].map((site, i) =>
      suspect(site, { faults: [fault(site, 'S1')], share: i === 2 ? 0.01 : 0.4 }),
    );
    const { cause } = reportOf(
      [lamp('off'), did({ do: 'repair', at: 'S1', how: 'new switch' }), lamp('lit')],
      diagnosisOf(at),
    );
    expect(cause.faults).toEqual(['high resistance or open at S1:1-2', 'high resistance or open at S1.1']);
    expect(cause.grounds).toContain('not proved bad');
  });

  test('when it worked again after the part was only taken out and refitted then nothing is claimed bad', () => {
    const touched = diagnosisOf([suspect('S1.1', { touched: true }), suspect('S1:1-2', { touched: true })]);
    const events = [
      lamp('off'),
      did({ do: 'take out', part: 'S1' }),
      did({ do: 'refit', part: 'S1' }),
      lamp('lit'),
    ];
    const report = reportOf(events, touched);
    expect(report.cause.certainty).toBe('most likely');
    expect(report.cause.grounds).toContain('proves no part bad');
    expect(report.verification.state).toBe('not verified');
    expect(report.notReplaced.join()).toContain('S1');
    expect(JSON.stringify(report)).not.toContain('The cause was');
  });

  test('when it had recovered before a new part was fitted then the repair confirms nothing', () => {
    const events = [
      lamp('off'),
      did({ do: 'wiggle', at: 'H1' }),
      lamp('lit'),
      did({ do: 'fit new', part: 'H1' }),
      lamp('lit'),
    ];
    const { cause } = reportOf(events, two);
    expect(cause.certainty).toBe('most likely');
  });

  test('when only a reseating was done then the recovery proves no part bad', () => {
    const { cause } = reportOf([lamp('off'), did({ do: 'reseat', at: 'X1' }), lamp('lit')], two);
    expect(cause.certainty).toBe('most likely');
  });

  test('when the technician names a part that a reading excludes then the report says so', () => {
    const fallen = [
      {
        hypothesis: 'F1',
        faults: suspect('F1:link').faults.map((one) => ({ ...one, part: 'F1' })),
        reason: { finding: 3, prediction: '0 to 0.1 V', reading: '12.4 V' },
      },
    ];
    const { cause } = reportOf(
      [lamp('off'), { type: 'concluded', at: 'F1', words: 'blown fuse' }],
      diagnosisOf([suspect('X1.1')], { fallen }),
    );
    expect(cause).toMatchObject({ certainty: 'not found', conclusion: 'blown fuse' });
    expect(cause.grounds).toContain('The readings speak against F1: finding 3 read 12.4 V');
  });

  test('when nothing fits then no cause is named', () => {
    const { cause, customer } = reportOf([lamp('off')], diagnosisOf([], { fits: false }));
    expect(cause).toMatchObject({ certainty: 'not found', faults: [] });
    expect(customer).toContain('has not been found');
  });

  test('when faults cannot be told apart then all of their group are named', () => {
    const group = [suspect('X1.1'), suspect('W5')];
    const { cause } = reportOf(
      [lamp('off')],
      diagnosisOf(group, { groups: [{ repair: group[0]!.faults[0]!.repair, suspects: group, share: 1 }] }),
    );
    expect(cause.faults).toHaveLength(2);
    expect(cause.certainty).toBe('only one left');
  });
});
