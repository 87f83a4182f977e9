/**
 * What one fault explains of the abnormal findings, each taken by itself, and the severities at which it does: where to look first
 * for two faults that explain them all.
 */
import { isEmpty, union } from './alive.js';
import type { Evidence } from './evidence-types.js';
import type { Fault } from './faults.js';
import type { Observation } from './observe.js';
import { restrict } from './restrict.js';
import { isOpen } from './severity.js';
import { begin } from './verdict.js';
import type { Workbench } from './workbench.js';

export interface Alone {
  /** Places in the list of abnormal findings. */
  readonly explains: readonly number[];
  /** In the unit of its scale; those at which it explains most come first. Only they are tried, so the list decides nothing. */
  readonly severities: readonly number[];
}

/** @param normal findings that it should leave as they are at the severities worth trying */
export function alone(
  bench: Workbench,
  fault: Fault,
  evidence: Evidence,
  abnormal: readonly Observation[],
  normal: readonly Observation[] = [],
): Alone {
  const { alive, grid } = begin([fault], evidence, 'steady');
  const cells = grid.axes[0]!.cells;
  const explains: number[] = [];
  /** By cell: how many hard findings agree with it. */
  const votes = new Uint16Array(cells);
  const count = (observation: Observation) => {
    const fits = restrict(bench, alive, grid, observation);
    if (isEmpty(fits)) return false;
    const row = union(fits, grid.size);
    if (observation.hard) votes.forEach((_, cell) => (votes[cell]! += row[cell]!));
    return true;
  };
  abnormal.forEach((observation, i) => {
    if (count(observation)) explains.push(i);
  });
  normal.forEach(count);
  const most = Math.max(...votes);
  const common = Uint8Array.from(votes, (agreeing) => (agreeing === most ? 1 : 0));
  const best = common.includes(0) ? middleOf(fault, common) : [];
  return { explains, severities: [...new Set([...best, ...worthTrying(fault)])] };
}

/** The middle of the longest stretch of cells; first an open circuit where it goes so far. */
function middleOf({ scale }: Fault, row: Uint8Array): readonly number[] {
  let [from, to] = [0, 0];
  for (let start = 0; start < row.length; start++) {
    if (row[start] === 0) continue;
    let end = start;
    while (row[end] === 1) end++;
    if (end - start > to - from) [from, to] = [start, end];
    start = end;
  }
  const { edges, unit } = scale;
  const [low, high] = [edges[from]!, edges[to]!];
  if (unit === 'ohm' && isOpen(high)) return to - from < 2 ? [high] : [high, Math.sqrt(low * edges[to - 1]!)];
  return [low > 0 ? Math.sqrt(low * high) : (low + high) / 2];
}

/** An open circuit or a dead short first, then a few ohms. */
export function worthTrying({ scale, apply }: Fault): readonly number[] {
  const { edges, unit } = scale;
  if (unit === 'none') return [edges[0]!];
  if (unit !== 'ohm') return [edges[edges.length >> 1]!, edges[0]!];
  return apply(1).kind === 'series' ? [edges.at(-1)!, 3] : [0.01, 3];
}
