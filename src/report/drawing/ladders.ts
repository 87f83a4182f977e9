/**
 * A circuit taken apart into ladders: stretches that go down from battery + to ground, each link once. Where a stretch forks,
 * its branches follow one after the other; where it meets a point that was drawn already, it ends with that name. A long
 * branch becomes a ladder of its own, so that each fits a screen.
 */
import type { PointId } from '../../circuit/circuit.js';
import type { Link } from '../../circuit/links.js';
import { across, goesDown, type Plan } from '../../circuit/downhill.js';

export interface Rung {
  readonly link: Link;
  /** Feed side first. */
  readonly from: PointId;
  readonly to: PointId;
}

/** `ground`: on metal. `drawn`: goes on at a point that stands elsewhere. `end`: nothing goes on from here. */
export type Foot = 'ground' | 'drawn' | 'end' | 'fork' | 'battery';

/** A stretch without forks, and what it ends in. */
export interface Run {
  readonly from: PointId;
  readonly rungs: readonly Rung[];
  readonly to: PointId;
  readonly foot: Foot;
  readonly branches: readonly Run[];
}

export interface Ladder {
  /** `A`, `B` … */
  readonly name: string;
  readonly run: Run;
  /** Branches that have a ladder of their own, by the run that they are. */
  readonly elsewhere: ReadonlyMap<Run, string>;
}

/** Rungs of a ladder before its long branches move out, and rungs that make a branch long. */
const MOST_RUNGS = 26;
const LONG = 9;

export function laddersOf(plan: Plan): readonly Ladder[] {
  const waiting = [...runsOf(plan)];
  const order: { readonly run: Run; readonly moved: readonly Run[] }[] = [];
  for (let run = waiting.shift(); run !== undefined; run = waiting.shift()) {
    const moved = rungsIn(run) > MOST_RUNGS ? longBranches(run) : [];
    waiting.unshift(...moved);
    order.push({ run, moved });
  }
  const names = new Map(order.map(({ run }, index) => [run, letters(index)]));
  return order.map(({ run, moved }) => ({
    name: names.get(run)!,
    run,
    elsewhere: new Map(moved.map((branch) => [branch, names.get(branch)!])),
  }));
}

/** The first branches on the way down that are long; short ones stay where they are. */
function longBranches(run: Run): readonly Run[] {
  if (run.branches.length === 0) return [];
  const long = run.branches.filter((branch) => rungsIn(branch) >= LONG);
  // A single long branch is the stem itself: it goes on to its own fork.
  return long.length === 1 && run.branches.length === 1 ? longBranches(long[0]!) : long;
}

function rungsIn(run: Run): number {
  return run.rungs.length + run.branches.reduce((sum, branch) => sum + rungsIn(branch), 0);
}

/** From the battery first; then what hangs on nothing that was drawn, from its highest point. */
function runsOf(plan: Plan): readonly Run[] {
  const drawn = new Set<number>();
  const passed = new Set<PointId>();
  const runs: Run[] = [];
  const begin = (from: PointId): void => {
    const run = walk(plan, from, undefined, drawn, passed);
    if (run.rungs.length + run.branches.length > 0) runs.push(run);
  };
  begin(plan.plus);
  const left = (): Link[] => plan.links.filter(({ kind, index }) => kind !== 'bolt' && !drawn.has(index));
  for (let links = left(); links.length > 0; links = left()) {
    // What leads back from the metal to the battery comes last.
    const back = links.filter(({ ends }) => !ends.some((end) => plan.grounded.has(end)));
    const ends = (back.length > 0 ? back : links).flatMap((link) => link.ends);
    const top = ends.reduce((best, end) => (plan.height(end) < plan.height(best) ? end : best));
    const before = drawn.size;
    passed.delete(top);
    begin(top);
    if (drawn.size > before) continue;
    // Ends of equal height, and the file has it the other way round.
    const [link] = links as [Link];
    drawn.add(link.index);
    const [from, to] = link.ends;
    runs.push({ from, rungs: [{ link, from, to }], to, foot: 'end', branches: [] });
  }
  return runs;
}

function walk(
  plan: Plan,
  from: PointId,
  first: Link | undefined,
  drawn: Set<number>,
  passed: Set<PointId>,
): Run {
  const rungs: Rung[] = [];
  let point = from;
  let next = first;
  for (;;) {
    if (next === undefined) {
      passed.add(point);
      if (plan.grounded.has(point) && rungs.length > 0)
        return { from, rungs, to: point, foot: 'ground', branches: [] };
      const ways = (plan.at.get(point) ?? []).filter(
        (link) => link.kind !== 'bolt' && !drawn.has(link.index) && goesDown(plan, link, point),
      );
      if (ways.length === 0)
        return { from, rungs, to: point, foot: point === plan.minus ? 'battery' : 'end', branches: [] };
      if (ways.length > 1 || (rungs.length === 0 && first === undefined && point === plan.plus)) {
        const branches: Run[] = [];
        for (const way of ways)
          if (!drawn.has(way.index)) branches.push(walk(plan, point, way, drawn, passed));
        return { from, rungs, to: point, foot: 'fork', branches };
      }
      next = ways[0]!;
    }
    drawn.add(next.index);
    const to = across(next, point);
    rungs.push({ link: next, from: point, to });
    point = to;
    next = undefined;
    if (passed.has(point) && !plan.grounded.has(point))
      return { from, rungs, to: point, foot: 'drawn', branches: [] };
  }
}

/** A … Z, AA … */
function letters(index: number): string {
  const letter = String.fromCharCode(65 + (index % 26));
  return index < 26 ? letter : `${letters(Math.floor(index / 26) - 1)}${letter}`;
}
