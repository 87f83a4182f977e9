/** The full comparison of the minimum cover with HiGHS; a sample of it is in tests/diagnosis/covers. */
import { expect, it } from 'vitest';
import { minimumCover } from '../../src/diagnosis/covers/covers.js';
import { isCover } from '../diagnosis/covers/brute-force.js';
import { coverProblem } from '../diagnosis/covers/families.js';
import { highsCost, startHighs } from '../diagnosis/covers/highs-cover.js';

const PROBLEMS = 200;

it(`when ${PROBLEMS} problems of 40 elements and 200 sets are solved then each cost equals that of HiGHS`, async () => {
  const highs = await startHighs();
  let equal = 0;
  for (let number = 0; number < PROBLEMS; number++) {
    const { sets, costs } = coverProblem(number);
    const found = minimumCover(40, sets, costs)!;
    expect(isCover(40, sets, found.members), `problem ${number}`).toBe(true);
    expect(found.cost, `problem ${number}`).toBeCloseTo(highsCost(highs, 40, sets, costs), 6);
    equal++;
  }
  console.log(`minimum cover: ${equal} of ${PROBLEMS} costs equal to HiGHS`);
});
