/**
 * The planner raced against plainer ways, first half. Part of `npm run bench:planning`; `KNOWNGOOD_VEHICLES=20` for more,
 * `KNOWNGOOD_CIRCUITS=stop-tail,starter` for some, `KNOWNGOOD_KEEP=FOLDER` to go on later.
 */
import { inject, test } from 'vitest';
import { checkRace, HALF } from './race-half.js';

test(
  'when every other vehicle is repaired in several ways then the planner takes the fewest minutes',
  HALF,
  () => checkRace(0, inject('trialsFolder')),
);
