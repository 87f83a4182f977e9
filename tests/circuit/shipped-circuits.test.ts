import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { loadsOf, terminalsOf } from '../../src/circuit/circuit.js';
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
  it('when they are listed then every structure is there', () => {
    expect(files).toEqual(
      expect.arrayContaining([
        'power-window.yaml',
        'radiator-fan.yaml',
        'reversing-lamps.yaml',
        'starter.yaml',
        'stop-tail.yaml',
        'trailer.yaml',
        'truck-24v.yaml',
        'two-grounds.yaml',
        'work-lamps.yaml',
      ]),
    );
  });

  it.each(files)('when %s is loaded then nothing is wrong and nothing advised', async (file) => {
    const { circuit, advice } = await load(file);
    expect(advice).toEqual([]);
    expect(`${circuit.id}.yaml`).toBe(file);
    expect(circuit.about).not.toBe('');
  });

  it.each(files)(
    'when everything in %s is on then each load loses less than a tenth of its volts',
    async (file) => {
      const { circuit } = await load(file);
      const volts = loadedVolts(circuit);
      const loads = [...circuit.parts.values()].flatMap(loadsOf);
      expect(volts.size).toBe(loads.length);
      for (const [load, across] of volts) {
        expect(across / circuit.nominalVolts, load).toBeGreaterThan(0.9);
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
