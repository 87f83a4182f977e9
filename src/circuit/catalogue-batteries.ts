/**
 * Lead-acid batteries by the ampere hours printed on them, with the case size of EN 50342-2 (cars) or EN 50342-4 (trucks) and a
 * usual cold current. The ohms are those of a warm battery, half of (12.65 V - 7.5 V) / cold current, for EN 50342-1 asks for
 * 7.5 V after 10 s of that current at -18 C and a warm one has about half the ohms (4 to 10 mohm: common practice, no source).
 */
import type { CatalogueEntry } from './catalogue-entry.js';

/** EMF of a full cell group and the least volts of the cold test. */
const RESTED = 12.65;
const COLD_TEST = 7.5;

function battery(id: string, size: string, coldAmps: number, inSeries = 1): CatalogueEntry {
  const ohms = (inSeries * 0.5 * (RESTED - COLD_TEST)) / coldAmps;
  const keys = { volts: `${(RESTED * inSeries).toFixed(2)} V`, ohms: `${ohms.toFixed(4)} ohm` };
  return {
    id,
    type: 'battery',
    words: `${size}, ${coldAmps} A cold${inSeries === 2 ? ', two in series drawn as one' : ''}`,
    source: 'EN 50342-1 cold test; cold currents from memory',
    demo: false,
    made: new Map([[12 * inSeries, keys]]),
  };
}

export const BATTERIES: readonly CatalogueEntry[] = [
  battery('44 Ah', 'EN 50342-2 LN1', 440),
  battery('60 Ah', 'EN 50342-2 LN2', 540),
  battery('70 Ah', 'EN 50342-2 LN3', 640),
  battery('80 Ah', 'EN 50342-2 LN4', 740),
  battery('95 Ah', 'EN 50342-2 LN5', 800),
  battery('140 Ah', 'EN 50342-4 A', 760),
  battery('180 Ah', 'EN 50342-4 B', 1000),
  battery('225 Ah', 'EN 50342-4 C', 1150),
  battery('2x 100 Ah', 'trucks of middle size', 720, 2),
  battery('2x 140 Ah', 'EN 50342-4 A', 760, 2),
  battery('2x 180 Ah', 'EN 50342-4 B', 1000, 2),
  battery('2x 225 Ah', 'EN 50342-4 C', 1150, 2),
];
