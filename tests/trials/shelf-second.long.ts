/** The other half of the hunt through the shelf; the first half's file says how to run it. */
import { inject, test } from 'vitest';
import { checkHunt, HALF } from './shelf-half.js';

test('when the other faults of each circuit are hunted then each is kept and found', HALF, () =>
  checkHunt(1, inject('trialsFolder')),
);
