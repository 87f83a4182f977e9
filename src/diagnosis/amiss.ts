/** Is something out of order? Only what no healthy vehicle shows in that set-up says so, whatever word it goes by. */
import type { Observation } from './observe.js';
import { Predictor } from './predict.js';
import type { Band } from './question.js';
import type { Workbench } from './workbench.js';

/** What a healthy vehicle would read, in the unit of the observation. */
export function healthyRange(bench: Workbench, observation: Observation): Band {
  const bands = new Predictor(bench, observation).bands([[]], 0);
  return {
    low: Math.min(...bands.map((band) => band.low)),
    high: Math.max(...bands.map((band) => band.high)),
  };
}

export function isAmiss({ low, high }: Band, observation: Observation): boolean {
  return low > observation.high || high < observation.low;
}
