/** A battery that breaks down under relays and modules swings with them: what was typed of its posts is a mean, and holds nothing still. */
import { expect, test } from 'vitest';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';

const told = (posts: string) => [
  ...['pedal down', 'H2 off', 'prove volts'],
  `volts A3.30 A3.CL 1.6/${posts}`,
];

test('when the posts read far too little then a reading beside them rules no fault of the battery out', async () => {
  const bench = await workbenchOf('can-pair');
  expect(suspectIds(diagnosisOf(bench, told('8.27')))).toContain('G1:emf resistance');
});

test('when the posts are well then a reading beside them is judged by them', async () => {
  const bench = await workbenchOf('can-pair');
  expect(suspectIds(diagnosisOf(bench, told('12.60')))).not.toContain('G1:emf resistance');
});
