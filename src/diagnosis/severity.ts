/**
 * The scale on which a fault can be mild or severe. Severity is continuous; the scale cuts it into cells whose edges are
 * solved, and whatever lies between two edges is covered by the hull of both (a list of trial values would lose true faults).
 */

export interface Scale {
  /** `ohm` added in series or to ground, `V` of a flat battery, `W` of a wrong lamp, `A` of a motor; `none` where a fault has one severity. */
  readonly unit: 'ohm' | 'V' | 'W' | 'A' | 'none';
  /** Cell i lies between edges[i] and edges[i + 1]; a fixed fault has one cell with two equal edges. */
  readonly edges: readonly number[];
}

/** Contacts drift between two readings by up to this factor without anybody touching them. */
export const DRIFT = 1.3;

const OPEN = 1e11;

function logEdges(low: number, high: number, perDecade: number): number[] {
  const steps = Math.round(Math.log10(high / low) * perDecade);
  return Array.from({ length: steps + 1 }, (_, i) => low * 10 ** (i / perDecade));
}

/** Added series ohms, from nothing that matters to an open. */
export const SERIES: Scale = { unit: 'ohm', edges: [...logEdges(1e-3, 1e7, 3), OPEN] };
/** Leak to ground, from a dead short to damp insulation. */
export const SHUNT: Scale = { unit: 'ohm', edges: logEdges(1e-3, 1e6, 3) };
/** No severity to speak of. */
export const FIXED: Scale = { unit: 'none', edges: [0, 0] };

/** Evenly cut scale. */
export function linearScale(unit: Scale['unit'], low: number, high: number, cells: number): Scale {
  return { unit, edges: Array.from({ length: cells + 1 }, (_, i) => low + ((high - low) * i) / cells) };
}

/** Evenly cut in the logarithm. */
export function logScale(unit: Scale['unit'], low: number, high: number, perDecade: number): Scale {
  return { unit, edges: logEdges(low, high, perDecade) };
}

/** The same scale with every so many edges, for the boxes of two faults at once; the hull of a wider cell is still sound. */
export function coarser(scale: Scale, step: number): Scale {
  const last = scale.edges.length - 1;
  return { ...scale, edges: scale.edges.filter((_, i) => i === last || i % step === 0) };
}

export function cellCount(scale: Scale): number {
  return scale.edges.length - 1;
}

/** Is this edge as good as an open circuit? */
export function isOpen(ohms: number): boolean {
  return ohms >= 1e7;
}
