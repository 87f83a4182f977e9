/** A fuse keeps what happened to it, wherever it sits. */
import { expect, test } from 'vitest';
import { movedFuses } from '../../src/diagnosis/fitted.js';
import { KNOWN_GOOD } from '../../src/session/setup.js';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';

const NONE: ReadonlyMap<string, string> = new Map();

test('when a known-good fuse lets the lamps light then a short that blew the own fuse and has gone is still a suspect', async () => {
  const bench = await workbenchOf('stop-tail');
  const lines = ['pedal down', 'dead H1.54 H2.54 H3', 'known-good F4', 'works H1.54'];
  expect(suspectIds(diagnosisOf(bench, lines))).toContain('H1.54 short');
});

test('when fuses change places then the blown one is blown in its new place', async () => {
  const { network } = await workbenchOf('stop-tail');
  const bit = (part: string) =>
    1 << network.fuses.findIndex((element) => network.elements[element]!.part === part);
  const swapped = new Map([
    ['F4', 'F6'],
    ['F6', 'F4'],
  ]);
  expect(movedFuses(network, NONE, swapped, bit('F4'))).toEqual([bit('F6')]);
  expect(movedFuses(network, swapped, NONE, bit('F6'))).toEqual([bit('F4')]);
});

test('when the own fuse comes back after a known-good one then it may be whole or blown', async () => {
  const { network } = await workbenchOf('stop-tail');
  const bit = 1 << network.fuses.findIndex((element) => network.elements[element]!.part === 'F4');
  const known = new Map([['F4', KNOWN_GOOD]]);
  expect(movedFuses(network, NONE, known, bit)).toEqual([0]);
  expect(movedFuses(network, known, NONE, 0)).toEqual([0, bit]);
});
