/** The customer's words as events, and whether a load that is seen now still does what was complained of. */
import type { Circuit } from '../circuit/circuit.js';
import type { Event, Sight } from '../session/events.js';
import { loadKind } from '../session/names.js';
import { parseLine } from '../session/parse-line.js';
import { FAILING, WORKING } from '../session/parse-sight.js';
import type { SetUp } from '../session/setup.js';
import { atRest } from '../session/setup.js';
import { whenSetUp } from '../session/standing.js';

type Found = Extract<Event, { type: 'found' }>;

/** A load that does not do what it should. */
export interface Complained {
  readonly load: string;
  readonly setUp: SetUp;
  readonly when: NonNullable<Found['when']>;
  readonly word: Sight;
  /** Words that say it is well: the usual one, or those of this very vehicle (`withGoodWords`). */
  readonly good: ReadonlySet<Sight>;
}

/** The lines of the complaint as told findings. Lines that do not parse are left out: the file's check names them. */
export function toldEvents(circuit: Circuit, lines: readonly string[]): readonly Found[] {
  return lines.flatMap((text) => {
    const line = parseLine(text, circuit);
    if (line.kind !== 'events') return [];
    return line.events.flatMap((event) =>
      event.type === 'found' ? [{ ...event, evidence: 'told' as const }] : [],
    );
  });
}

/** `works H1` is no complaint; `H1 lit` is one: it works where it should not. */
export function complainedOf(circuit: Circuit, lines: readonly string[]): readonly Complained[] {
  return lines
    .filter((line) => !/^\s*works?\s/i.test(line))
    .flatMap((line) => toldEvents(circuit, [line]))
    .flatMap(({ reading, when = [] }) => {
      if (reading.kind !== 'load') return [];
      const kind = loadKind(circuit, reading.load)!;
      const good = reading.value === WORKING[kind] ? FAILING[kind] : WORKING[kind];
      const setUp = whenSetUp(when, atRest(circuit));
      return [{ load: reading.load, setUp, when, word: reading.value, good: new Set([good]) }];
    });
}

/** The complaint that a look at this load, in this set-up, repeats. */
export function complaintSeen(
  complained: readonly Complained[],
  load: string,
  setUp: SetUp,
): Complained | undefined {
  return complained.find(
    (one) =>
      one.load === load &&
      one.setUp.engine === setUp.engine &&
      [...one.setUp.controls].every(([control, position]) => setUp.controls.get(control) === position),
  );
}
