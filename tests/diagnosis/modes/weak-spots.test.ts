import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { diagnose } from '../../../src/diagnosis/diagnose.js';
import { createWorkbench } from '../../../src/diagnosis/workbench.js';
import { parseCircuit } from '../../../src/files/circuit-file.js';
import { foldCase } from '../../../src/session/fold.js';

const source = readFileSync(new URL('../../../circuits/reversing-lamps.yaml', import.meta.url), 'utf8');

function benchOf(text: string) {
  const checked = parseCircuit(text);
  if ('problems' in checked) throw new Error(checked.problems[0]!.message);
  return createWorkbench(checked.circuit);
}

const plain = benchOf(source.replaceAll(/, weak spot: \{[^}]*\}/g, ''));
const weak = benchOf(
  source
    .replaceAll(/, weak spot: \{[^}]*\}/g, '')
    .replace('place: tail left}', 'place: tail left, weak spot: {times: 4, why: spray from the wheel}}')
    .replace(
      'size: 1 mm2, length: 4 m',
      'size: 1 mm2, length: 4 m, weak spot: {times: 0.5, why: runs in a tube}',
    ),
);

it('when a part or wire has a weak spot then its faults weigh so many times as much, and no others do', () => {
  const changed = weak.faults.flatMap((fault, i) => {
    const times = fault.weight / plain.faults[i]!.weight;
    return Math.abs(times - 1) < 1e-9 ? [] : [[fault.part, Number(times.toFixed(6)), fault.kind] as const];
  });
  expect(new Set(changed.map(([part, times]) => `${part} ${times}`))).toEqual(new Set(['X3 4', 'W8 0.5']));
  expect(changed.map(([, , kind]) => kind)).not.toContain('crossed');
  expect(weak.faults.some(({ part, kind }) => part === 'X3' && kind === 'crossed')).toBe(true);
});

it('when something fails then weak spots change the ranking and never who is listed', () => {
  const suspects = [plain, weak].map((bench) => {
    const lamp = { kind: 'load', load: 'H1', value: 'off' } as const;
    const events = [
      { type: 'did', action: { do: 'operate', control: 'key', position: 'on' } },
      { type: 'did', action: { do: 'operate', control: 'gear', position: 'reverse' } },
      { type: 'found', reading: lamp },
    ] as const;
    const recorded = events.map((event, i) => ({ number: i + 1, at: '', event }));
    return diagnose(bench, foldCase(bench.circuit, recorded)).suspects;
  });
  const names = suspects.map((list) => list.map(({ hypothesis }) => hypothesis).sort());
  expect(names[1]).toEqual(names[0]);
  const share = (list: (typeof suspects)[0] | undefined) =>
    list!.find(({ hypothesis }) => hypothesis === 'X3.1 resistance')!.share;
  expect(share(suspects[1])).toBeGreaterThan(2 * share(suspects[0]));
});
