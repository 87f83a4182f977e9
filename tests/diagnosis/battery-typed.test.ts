/** What the battery volts typed beside one finding say of the battery behind another. */
import { expect, test } from 'vitest';
import { sourceFor } from '../../src/diagnosis/source-for.js';
import type { Law } from '../../src/network/network.js';
import { kinds } from '../session/kinds-circuit.js';
import { Asked } from './asked.js';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';

const asked = new Asked(kinds);

function sourceAfter(...lines: readonly string[]): Extract<Law, { kind: 'source' }> {
  const findings = asked.findings('key on', ...lines, 'volts F1.2 12.3');
  const { source } = sourceFor(asked.bench, findings.at(-1)!, findings.slice(0, -1));
  if (source.kind !== 'source') throw new Error('a battery is a source');
  return source;
}

test('when whole volts are typed beside finer ones then the finer ones stand', () => {
  const fine = sourceAfter('volts F1.1 12.4/12.44');
  expect(fine.highVolts - fine.lowVolts).toBeLessThan(2);
  expect(sourceAfter('volts F1.1 12.4/12.44', 'volts H1.1 12/12')).toEqual(fine);
});

test('when the battery was seen to fall then it may be anywhere between', () => {
  const before = sourceAfter('volts F1.1 12.6/12.62');
  const { lowVolts, highVolts } = sourceAfter('volts F1.1 12.6/12.62', 'volts H1.1 11.7/11.75');
  expect(lowVolts).toBeLessThan(before.lowVolts);
  expect(highVolts).toBe(before.highVolts);
});

test('when the engine runs then a weak battery too is held up at charging volts', async () => {
  const bench = await workbenchOf('fog-lamps');
  const lines = ['fog lamps front', 'volts K1.30 12.2', 'engine running', 'volts GP1 bat+ -14.0'];
  expect(suspectIds(diagnosisOf(bench, lines))).toContain('G1:emf resistance');
});
