/** What a load is called on one very vehicle, with its faults or mended: the customer's word, and the word that says it is well again. */
import type { Workbench } from '../diagnosis/workbench.js';
import type { Event, Sight } from '../session/events.js';
import type { SetUp } from '../session/setup.js';
import type { Complained } from './complaint-events.js';
import { ExerciseVehicle, type Concealed } from './vehicle.js';

type Found = Extract<Event, { type: 'found' }>;

/** Looks at a load; two people, or two moments of a flasher, may call it by other words. */
const LOOKS = 6;

/** @param driven set-ups in which the vehicle has come in */
export async function wordsSeen(
  bench: Workbench,
  concealed: Concealed,
  driven: readonly SetUp[],
  look: Found,
): Promise<ReadonlySet<Sight>> {
  const vehicle = await ExerciseVehicle.begin(bench, concealed, driven);
  const words = new Set<Sight>();
  for (let number = 1; number <= LOOKS; number++) {
    const { event } = await vehicle.meet(number, look);
    if (event.type === 'found' && event.reading.kind === 'load') words.add(event.reading.value);
  }
  return words;
}

/** The complaints with the words that this vehicle gives once it is mended: a turn signal flashes, a daytime lamp may be dim by design. */
export async function withGoodWords(
  bench: Workbench,
  seed: number,
  complained: readonly Complained[],
): Promise<readonly Complained[]> {
  const driven = complained.map(({ setUp }) => setUp);
  const list: Complained[] = [];
  for (const one of complained) {
    const { load, word, when } = one;
    const look: Found = { type: 'found', reading: { kind: 'load', load, value: word }, when };
    const words = new Set(await wordsSeen(bench, { faults: [], seed }, driven, look));
    words.delete(word);
    list.push(words.size === 0 ? one : { ...one, good: words });
  }
  return list;
}
