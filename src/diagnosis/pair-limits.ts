/**
 * How far the search for two faults at once goes. Between two findings a person waits for it, so it is given less the more each pair
 * costs; what is left over is counted as not judged, and never called cleared.
 */
import type { Evidence } from './evidence-types.js';
import type { Workbench } from './workbench.js';

export interface Limits {
  /** Groups of pairs looked at. */
  readonly pairs: number;
  /** Those of them whose whole box of severities is searched, where no likely severities fit. */
  readonly boxes: number;
}

/** For when the whole picture is wanted. */
export const EVERY_PAIR: Limits = { pairs: Infinity, boxes: Infinity };

const AT_MOST: Limits = { pairs: 150, boxes: 5 };
const AT_LEAST: Limits = { pairs: 100, boxes: 3 };
/** Elements of the network times steps of the session up to which nothing is cut. */
const SMALL = 3800;

/** For when none of those explains the session: better a second or two than "nothing fits". */
const FURTHER: Limits = { pairs: 1200, boxes: 60 };
const FURTHER_AT_LEAST: Limits = { pairs: 300, boxes: 6 };

/** Between two findings. Depends on circuit and session alone, not on what is remembered of earlier calls. */
export function pairsAtOnce(bench: Workbench, evidence: Evidence): Limits {
  return cut(AT_MOST, AT_LEAST, shareOf(bench, evidence));
}

/** Between two findings, when nothing has explained them. Never fewer than `pairsAtOnce`. */
export function pairsFurther(bench: Workbench, evidence: Evidence): Limits {
  // Each relay, and each state of a module, makes a box dearer: it has more ways to stand.
  const share = shareOf(bench, evidence) / (1 + bench.network.coils.length);
  return cut(FURTHER, FURTHER_AT_LEAST, share);
}

/** Longer sessions have more steps to walk and leave more to tell apart in each; larger networks likewise: by measurement about the square. */
function shareOf(bench: Workbench, evidence: Evidence): number {
  return Math.min(1, (SMALL / (bench.network.elements.length * evidence.steps.length)) ** 2);
}

function cut(most: Limits, least: Limits, share: number): Limits {
  return {
    pairs: Math.max(least.pairs, Math.round(most.pairs * share)),
    boxes: Math.max(least.boxes, Math.round(most.boxes * share)),
  };
}
