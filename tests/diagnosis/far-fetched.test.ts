/** Two faults that look like one: what fits alone in a corner of its scale only is no reason not to look at pairs. */
import { expect, test } from 'vitest';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';

test('when one short fits only in a far-fetched way then the likelier pair stands before it', async () => {
  // Battery ground open and 2.9 Mohm in the holder of F1, readings as a simulated vehicle gave them.
  const lamps = await workbenchOf('fog-lamps');
  const seen = [
    ...['lights on', 'fog lamps front', 'see K1 silent', 'H5 off', 'H1 off', 'H2 off', 'H3 off', 'H4 off'],
    ...['prove volts', 'volts F1.2 7.01', 'volts bat+ F2.1 0.00', 'volts SP1 11.09'],
    ...['fog lamps front and rear', 'see K1 silent', 'volts F1.1 F1.2 2.1'],
  ];
  const diagnosis = diagnosisOf(lamps, seen);
  const [first] = diagnosis.suspects;
  expect(first!.faults).toHaveLength(2);
  expect(suspectIds(diagnosis)).toContain('GP1 resistance + F1.1 resistance');
  expect(suspectIds(diagnosis)).toContain('F1.1 short');
  expect(diagnosis.suspects.find(({ hypothesis }) => hypothesis === 'F1.1 short')!.share).toBeLessThan(0.05);
});

test('when a single fault fits well then no pair is put beside it', async () => {
  const lamps = await workbenchOf('fog-lamps');
  const seen = ['lights on', 'fog lamps front', 'H1 off', 'H2 lit', 'prove volts', 'volts H1.1 H1.31 12.3'];
  expect(diagnosisOf(lamps, seen).suspects.filter(({ faults }) => faults.length > 1)).toEqual([]);
});

test('when one pair stands then those in which a neighbour takes a place stand beside it', async () => {
  // F1 blown and 87 kohm at the ground splice, readings as a simulated vehicle gave them.
  const engine = await workbenchOf('coolant-sensor');
  const seen = [
    ...[
      'key on',
      'coolant hot',
      'intake air cold',
      'M1 stopped',
      'see K1 silent',
      'prove clamp',
      'clamp W2 0.0',
    ],
    ...['prove volts', 'volts SP2 0.00', 'volts F1.1 11.44', 'volts F1.2 0.00', 'take out F1', 'key off'],
    ...['prove ohms', 'ohms F1.1i F1.2i OL', 'key on', 'ohms F1.2 body 95.8k', 'refit F1', 'key off'],
    ...['coolant cold', 'intake air warm', 'ohms F1.2 body 85.3k'],
  ];
  const suspects = suspectIds(diagnosisOf(engine, seen));
  expect(suspects).toContain('F1:link open + GP2 resistance');
  expect(suspects).toContain('F1:link open + SP5/W10 resistance');
  expect(suspects).toContain('F1:link open + W10 resistance');
});
