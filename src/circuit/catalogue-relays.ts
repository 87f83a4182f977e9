/**
 * Plug-in relays of ISO 7588 by size. The standard sets the socket and the terminals; coil ohms and pull-in volts are those of
 * common data sheets (from memory): coils of 85 to 90 ohm at 12 V and 300 to 360 ohm at 24 V, pull-in below two thirds of the
 * rated volts, drop-out above a tenth. The solver spreads coil ohms by 20 % to either side.
 */
import type { CatalogueEntry, CatalogueKeys } from './catalogue-entry.js';

function relay(
  id: string,
  words: string,
  source: string,
  ohms12: number,
  ohms24: number,
  changeOver: boolean,
): CatalogueEntry {
  const keys = (scale: number, ohms: number): CatalogueKeys => ({
    coil: `${ohms} ohm`,
    'pull-in': `${8 * scale} V`,
    'drop-out': `${1.2 * scale} V`,
    ...(changeOver ? { 'change-over': 'true' } : {}),
  });
  const made = new Map([
    [12, keys(1, ohms12)],
    [24, keys(2, ohms24)],
  ]);
  return { id, type: 'relay', words, source, demo: false, made };
}

const MINI = 'ISO 7588-1 (socket); coil from common data sheets, from memory';
const MICRO = 'ISO 7588-2 (socket); coil from common data sheets, from memory';
const POWER = 'common data sheets, from memory';

export const RELAYS: readonly CatalogueEntry[] = [
  relay('ISO mini', 'four terminals, makes 30-87, 30 to 40 A', MINI, 85, 305, false),
  relay('ISO mini change-over', 'five terminals, 30-87a at rest, 20 to 30 A', MINI, 85, 305, true),
  relay('ISO micro', 'four terminals, makes 30-87, 20 to 25 A', MICRO, 90, 360, false),
  relay('ISO micro change-over', 'five terminals, 30-87a at rest, 10 to 20 A', MICRO, 90, 360, true),
  relay('power relay', 'makes 30-87, 70 A, fan, glow plugs, preheater', POWER, 75, 300, false),
];
