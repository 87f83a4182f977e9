/**
 * What tests, steps and work cost where neither the circuit file nor the person says otherwise: minutes, and money per hour for
 * `labour`. One page, to be reviewed as one. Every figure is common practice, no source: what a mechanic with the tools at hand
 * takes, looked through for being in proportion to each other, for that alone decides the order of tests.
 *
 * What opening a place takes is in each circuit file (`places`), what a repair takes with its fault (src/diagnosis/modes).
 */
import type { Costs } from '../circuit/costs.js';

export const USUAL_COSTS: Costs = {
  // Tests, in their set-up and at an open place.
  /** One load, from where the person stands; common practice, no source. */
  look: 0.3,
  /** The same with something else in the hands; common practice, no source. */
  watch: 0.4,
  /** The black lead stays clipped to the battery; common practice, no source. */
  probe: 0.8,
  /** Both probes are placed anew; common practice, no source. */
  'far-probe': 1,
  /** Two probes, the two ends of a lamp, and the battery's volts besides; common practice, no source. */
  loaded: 1.6,
  /** Wire picked out of its loom, meter zeroed; common practice, no source. */
  clamp: 0.8,
  /** Common practice, no source. */
  ohms: 0.8,
  /** The tool is connected and shows the list already; common practice, no source. */
  scan: 1.5,

  // Steps on the way.
  /** Common practice, no source. */
  operate: 0.1,
  /** Started or stopped and run steady; common practice, no source. */
  engine: 0.5,
  /** A locked plug within reach; common practice, no source. */
  unplug: 0.5,
  /** Common practice, no source. */
  plug: 0.5,
  /** Fuse, lamp, relay; common practice, no source. */
  'take-out': 0.7,
  /** Common practice, no source. */
  refit: 0.7,
  /** Laid ready already; common practice, no source. */
  'fit-new': 1,
  /** Common practice, no source. */
  reset: 1,
  /** Fused, both ends clipped on; common practice, no source. */
  jumper: 1,
  /** Common practice, no source. */
  'remove-jumper': 0.3,
  /** Two items out and in; common practice, no source. */
  swap: 2.5,
  /** Fetched from the shelf and fitted; it goes back afterwards, so no money is counted; common practice, no source. */
  'fit-known-good': 3,
  /** Common practice, no source. */
  'lamp-in-place': 1.5,
  /** Common practice, no source. */
  'remove-lamp': 0.5,
  /** Common practice, no source. */
  wiggle: 0.5,
  /** Common practice, no source. */
  clean: 1,
  /** Common practice, no source. */
  tighten: 1,
  /** Common practice, no source. */
  reseat: 1,
  /** Never on the way to a test; common practice, no source. */
  repair: 1,
  /** Round one car the steps are in the minutes of the tests; a long vehicle needs its own figure. Common practice, no source. */
  move: 0,
  /** A colleague is called over; common practice, no source. */
  helper: 1,

  /** Money per hour, in the person's own money; common practice, no source. */
  labour: 60,
};
