/** What a circuit that does not come to rest shows: anything between the states between which it goes to and fro. */
import type { Asked, State, StateBand } from './question.js';

/**
 * Bands of a box as a meter or an eye may meet them. A state in which the circuit may rest or be one of those between which something
 * chatters gives two of them.
 * @param bands one for each state that is some corner's own, as if it rested in it
 * @param lists what was asked at the corners
 */
export function withUnrest(bands: readonly StateBand[], lists: readonly Asked[]): StateBand[] {
  const flashes = lists.some((asked) => asked.flashes);
  if (!flashes && !lists.some((asked) => asked.chatters)) return [...bands];
  const low = Math.min(...bands.map((band) => band.low));
  const high = Math.max(...bands.map((band) => band.high));
  if (flashes) return bands.map((band) => ({ ...band, low, high }));
  return bands.flatMap((band) => {
    const own = ownStates(lists, band);
    const staying = own.flatMap((state) => state.staying);
    const chattering = staying.length === 0 ? [] : [{ ...band, low, high, staying }];
    return own.some(({ rests }) => rests) ? [band, ...chattering] : chattering;
  });
}

/** A state at those corners of a box at which the circuit may stand in it. */
function ownStates(
  lists: readonly Asked[],
  { pulledIn, blown }: Pick<State, 'pulledIn' | 'blown'>,
): readonly State[] {
  return lists.flatMap(({ states, own }) =>
    states.filter((state, k) => k < own && state.pulledIn === pulledIn && state.blown === blown),
  );
}
