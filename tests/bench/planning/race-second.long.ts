/** The other half of the race of the planner against plainer ways; the first half's file says how to run it. */
import { inject, test } from 'vitest';
import { checkRace, HALF } from './race-half.js';

test(
  'when the other vehicles are repaired in several ways then the planner takes the fewest minutes',
  HALF,
  () => checkRace(1, inject('trialsFolder')),
);
