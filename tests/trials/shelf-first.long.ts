/**
 * Every circuit of the shelf, fault by fault: is the one that is there kept, and found? Up to twelve faults of each circuit, evenly
 * over its list; other numbers, and some circuits only; with a folder to go on later:
 *
 *     KNOWNGOOD_SHELF=all KNOWNGOOD_CIRCUITS=horn,blower KNOWNGOOD_KEEP=FOLDER npx vitest run --config longtests.config.ts tests/trials/shelf
 *
 * What was not found may be hunted again by somebody with more patience: its lines taken out of the folder, `KNOWNGOOD_PATIENCE=2`.
 */
import { inject, test } from 'vitest';
import { checkHunt, HALF } from './shelf-half.js';

test('when every other fault of each circuit is hunted then each is kept and found', HALF, () =>
  checkHunt(0, inject('trialsFolder')),
);
