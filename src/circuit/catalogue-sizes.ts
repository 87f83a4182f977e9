/** Sizes in which fuses and wires are made: what a rating or a cross-section of a file can be. */

/** One blade fuse of the middle size: rating, colour of its body, resistance when cold. */
export interface BladeFuse {
  readonly amps: number;
  readonly colour: string;
  readonly coldOhms: number;
}

/**
 * Blade fuses of ISO 8820-3 type C. Colours: the number on the fuse goes first, other shapes reuse them above 30 A. Ohms: one
 * typical maker's sheet, from memory; an order of magnitude.
 */
export const BLADE_FUSES: readonly BladeFuse[] = [
  { amps: 1, colour: 'black', coldOhms: 0.123 },
  { amps: 2, colour: 'grey', coldOhms: 0.0535 },
  { amps: 3, colour: 'violet', coldOhms: 0.031 },
  { amps: 4, colour: 'pink', coldOhms: 0.023 },
  { amps: 5, colour: 'light brown', coldOhms: 0.0179 },
  { amps: 7.5, colour: 'brown', coldOhms: 0.0109 },
  { amps: 10, colour: 'red', coldOhms: 0.0077 },
  { amps: 15, colour: 'blue', coldOhms: 0.0048 },
  { amps: 20, colour: 'yellow', coldOhms: 0.0034 },
  { amps: 25, colour: 'clear', coldOhms: 0.0025 },
  { amps: 30, colour: 'green', coldOhms: 0.002 },
  { amps: 35, colour: 'blue-green', coldOhms: 0.0016 },
  { amps: 40, colour: 'orange', coldOhms: 0.0014 },
];

/** Ratings of other fuses: torpedo (DIN 72581), glass, high-current blade and strip fuses (ISO 8820-4, -5); from memory. */
const OTHER_RATINGS = [
  0.25, 0.5, 8, 12, 16, 45, 50, 60, 70, 80, 100, 125, 150, 175, 200, 225, 250, 300, 350, 400, 500, 600,
];

/** Amperes that some fuse is made with, rising. */
export const FUSE_RATINGS: readonly number[] = [
  ...BLADE_FUSES.map(({ amps }) => amps),
  ...OTHER_RATINGS,
].sort((a, b) => a - b);

/** One size of road-vehicle wire. */
export interface WireSize {
  readonly mm2: number;
  /** The most its conductor may have at 20 C, ohms a metre. */
  readonly mostOhmsPerMetre: number;
  /** The largest fuse that usually protects it in a loom, amperes (common practice, no source). */
  readonly usualFuse: number;
}

/** Copper conductors of ISO 6722-1 and ISO 19642, resistances from memory. */
export const WIRE_SIZES: readonly WireSize[] = [
  { mm2: 0.35, mostOhmsPerMetre: 0.0544, usualFuse: 5 },
  { mm2: 0.5, mostOhmsPerMetre: 0.0371, usualFuse: 7.5 },
  { mm2: 0.75, mostOhmsPerMetre: 0.0247, usualFuse: 10 },
  { mm2: 1, mostOhmsPerMetre: 0.0185, usualFuse: 15 },
  { mm2: 1.5, mostOhmsPerMetre: 0.0127, usualFuse: 20 },
  { mm2: 2.5, mostOhmsPerMetre: 0.0076, usualFuse: 30 },
  { mm2: 4, mostOhmsPerMetre: 0.00471, usualFuse: 40 },
  { mm2: 6, mostOhmsPerMetre: 0.00314, usualFuse: 60 },
  { mm2: 10, mostOhmsPerMetre: 0.00182, usualFuse: 80 },
  { mm2: 16, mostOhmsPerMetre: 0.00116, usualFuse: 100 },
  { mm2: 25, mostOhmsPerMetre: 0.000743, usualFuse: 150 },
  { mm2: 35, mostOhmsPerMetre: 0.000527, usualFuse: 200 },
  { mm2: 50, mostOhmsPerMetre: 0.000368, usualFuse: 250 },
  { mm2: 70, mostOhmsPerMetre: 0.000259, usualFuse: 300 },
  { mm2: 95, mostOhmsPerMetre: 0.000196, usualFuse: 400 },
];
