/**
 * What steps may cost, by name: the keys of `costs:` in a circuit file and of a person's own file of costs, and what each stands
 * for. Figures that nobody gave are in src/planning/usual-costs.ts.
 */
import { pointer, type Ranges } from './diagnostic.js';
import type { Mistakes } from './mistakes.js';

/** Tests, each in its set-up and at a place that is open. */
export const TEST_COSTS = {
  look: 'a glance at a load, or listening to it',
  watch: 'watching one load while something is done',
  probe: 'a reading with one probe on the battery, or a test lamp',
  'far-probe': 'a reading between two points',
  loaded: 'a reading between two points with a test lamp across them, and of the battery beside it',
  clamp: 'a clamp meter around a wire',
  ohms: 'ohms of a line made dead, or of an item taken out',
  scan: 'a value from a scan tool',
} as const;

/** What is done on the way to a test. */
export const STEP_COSTS = {
  operate: 'working a control',
  engine: 'starting or stopping the engine',
  unplug: 'parting a connector',
  plug: 'connecting it again',
  'take-out': 'taking an item out of its holder',
  refit: 'putting it back',
  'fit-new': 'fitting a new item',
  reset: 'resetting a breaker or a module output',
  jumper: 'bridging two points with a fused jumper',
  'remove-jumper': 'taking the jumper off',
  swap: 'letting two like items change places',
  'fit-known-good': 'fitting an item known to be good',
  'lamp-in-place': 'hanging a test lamp in place of a fuse',
  'remove-lamp': 'taking it out again',
  wiggle: 'moving a joint or a loom while something is watched',
  clean: 'cleaning contacts',
  tighten: 'tightening a joint',
  reseat: 'parting and joining a contact',
  repair: 'a repair on the way',
  move: 'walking to one more place that is open already',
  helper: 'having somebody hold a control',
} as const;

export type TestCost = keyof typeof TEST_COSTS;
export type StepCost = keyof typeof STEP_COSTS;
/** `labour` is money per hour, everything else minutes. */
export type CostKey = TestCost | StepCost | 'labour';
export type Costs = Readonly<Record<CostKey, number>>;
export type GivenCosts = Partial<Costs>;

/** As written: every amount still text. */
export type CostsDocument = Readonly<Partial<Record<CostKey, string>>>;

/** Shorter than this no test is, minutes: with none at all every test would be worth any number of others. */
const SHORTEST = 0.05;

/**
 * Reads the costs of a document that has passed the schema.
 * @param at JSON Pointer of the group in its file
 */
export function readCosts(
  document: CostsDocument,
  at: string,
  ranges: Ranges,
  mistakes: Mistakes,
): GivenCosts {
  const costs: Partial<Record<CostKey, number>> = {};
  for (const key of Object.keys(document) as CostKey[]) {
    const range = ranges.value(at + pointer(key));
    const before = mistakes.errors;
    const value = mistakes.amount(document[key], key === 'labour' ? 'money' : 'time', range, 1);
    if (mistakes.errors > before) continue;
    if (key === 'labour' && value <= 0)
      mistakes.error(
        'out-of-range',
        range,
        'with a labour rate of 0 no price can be weighed against minutes',
        'write what an hour of work costs, like 60',
      );
    else if (key in TEST_COSTS && value < SHORTEST)
      mistakes.error(
        'out-of-range',
        range,
        `${key} (${TEST_COSTS[key as TestCost]}) takes some time`,
        'write at least 3 s',
      );
    else costs[key] = value;
  }
  return costs;
}
