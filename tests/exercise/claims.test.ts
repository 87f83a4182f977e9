/** What a student says is cleared, held against the readings. */
import { expect, test } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.js';
import { unsupportedClaims } from '../../src/exercise/claims.js';
import type { Insight } from '../../src/exercise/insight.js';
import { foldCase } from '../../src/session/fold.js';
import type { Recorded } from '../../src/session/events.js';
import { recordedOf, workbenchOf } from '../diagnosis/session-of.js';

const FOUND = [
  'fails H3 when pedal down',
  'B1 sounds when horn button pressed',
  'volts S4.1 11.77 when pedal down',
];

async function unsupported(lines: readonly string[], at: string, of: string): Promise<number> {
  const bench = await workbenchOf('stop-tail');
  const before = recordedOf(bench, lines);
  const claimed: Recorded = {
    number: before.length + 1,
    at: before.at(-1)!.at,
    event: { type: 'claimed', at, of },
  };
  const insight = {
    diagnosis: (recorded: readonly Recorded[]) => diagnose(bench, foldCase(bench.circuit, recorded)),
  } as Insight;
  return unsupportedClaims({ bench, recorded: [...before, claimed], complained: [], insight }).length;
}

test('when only a fraction of an ohm is left at a fuse then it is cleared of being open, and not of a poor contact', async () => {
  expect(await unsupported(FOUND, 'F4', 'open')).toBe(0);
  expect(await unsupported(FOUND, 'F4', 'resistance')).toBe(1);
});

test('when nothing but the complaint is known then no fuse is cleared of being open', async () => {
  expect(await unsupported(FOUND.slice(0, 1), 'F4', 'open')).toBe(1);
});
