import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { loadsOf, terminalsOf } from '../../src/circuit/circuit.js';
import { partSchemas } from '../../src/circuit/schema-parts.js';
import { readCircuit } from '../../src/files/circuit-file.js';
import { loadedVolts } from './loaded-volts.js';

const folder = fileURLToPath(new URL('../../circuits/', import.meta.url));
const files = readdirSync(folder);

async function load(file: string) {
  const result = await readCircuit(folder + file);
  if ('problems' in result) throw new Error(result.problems.map(({ message }) => message).join('\n'));
  return result;
}

describe('the circuits that come with the program', () => {
  it('when they are listed then there are 26 or more, and each kind of part is in one of them', async () => {
    expect(files.length).toBeGreaterThanOrEqual(26);
    const types = new Set<string>();
    for (const file of files)
      for (const { type } of (await load(file)).circuit.parts.values()) types.add(type);
    expect([...types].sort()).toEqual(Object.keys(partSchemas).sort());
  });

  it.each(files)('when %s is loaded then nothing is wrong and nothing advised', async (file) => {
    const { circuit, advice } = await load(file);
    expect(advice).toEqual([]);
    expect(`${circuit.id}.yaml`).toBe(file);
    expect(circuit.about).not.toBe('');
  });

  // Loads that lose more, for reasons told in healthy-drops.test.ts.
  const LONG_WAYS = ['R1.1 of trailer-13'];

  it.each(files)(
    'when everything in %s is on then each load loses less than a tenth of its volts',
    async (file) => {
      const { circuit } = await load(file);
      const volts = loadedVolts(circuit);
      const loads = [...circuit.parts.values()].flatMap(loadsOf);
      expect(volts.size).toBe(loads.length);
      for (const [load, across] of volts) {
        const least = LONG_WAYS.includes(`${load} of ${circuit.id}`) ? 0.85 : 0.9;
        expect(across / circuit.nominalVolts, load).toBeGreaterThan(least);
        expect(across / circuit.nominalVolts, load).toBeLessThan(1);
      }
    },
  );

  it.each(files)('when %s is opened then every fuse is rated below what its wires stand', async (file) => {
    const { circuit } = await load(file);
    // Highest fuse for a copper wire in a loom, amperes by mm² (common practice, no source).
    const most = (mm2: number) => 12 * mm2 + 3;
    for (const part of circuit.parts.values()) {
      if (part.type !== 'fuse') continue;
      const ends = terminalsOf(part).map((terminal) => `${part.id}.${terminal}`);
      for (const wire of circuit.wires) {
        if (!ends.includes(wire.from) && !ends.includes(wire.to)) continue;
        expect(part.amps, `${part.id} on ${wire.id}`).toBeLessThanOrEqual(most(wire.mm2));
      }
    }
  });

  it('when the line ends of a checkout differ then the hash does not', async () => {
    const { parseCircuit } = await import('../../src/files/circuit-file.js');
    const { source, hash } = await load('stop-tail.yaml');
    const other = parseCircuit(source.replaceAll('\n', '\r\n'));
    expect('hash' in other && other.hash).toBe(hash);
    const changed = parseCircuit(source.replace('15 A', '10 A'));
    expect('hash' in changed && changed.hash).not.toBe(hash);
  });
});
