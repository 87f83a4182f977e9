/** The first half of the random exercises: `KNOWNGOOD_EXERCISES=1000 npm run exercises`. */
import { inject, test } from 'vitest';
import { checkHalf, HALF } from './exercise-half.js';

test('when five students do the first half of the exercises then the marks rank them', HALF, () =>
  checkHalf(0, inject('trialsFolder')),
);
