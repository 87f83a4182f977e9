/** A weighed test as a suggestion: in words, as lines and events, with its outcomes and cautions. */
import { answersFor } from '../diagnosis/good-sights.js';
import type { Workbench } from '../diagnosis/workbench.js';
import { edit } from '../session/actions.js';
import type { Case } from '../session/case.js';
import type { Reading } from '../session/events.js';
import type { Caution } from './cautions.js';
import { cautionsFor } from './cautions.js';
import { lineOf } from './changes.js';
import { actionsOf } from './cost.js';
import type { Member } from './outcome-words.js';
import { outcomesOf, wiggleOutcomes } from './outcome-words.js';
import { wasRounded } from './questions.js';
import type { Suggestion } from './suggestion.js';
import type { Weighed } from './weigh.js';

/** For what was read before and typed in whole volts. */
const DIGITS = 'the digits after the point tell this time';

/** @param members the likely faults with what each would read in it */
export function toSuggestion(
  bench: Workbench,
  session: Case,
  { candidate, minutes, gain, separates }: Weighed,
  members: readonly Member[],
): Suggestion {
  const { line, reading, words, setUp, wiggle } = candidate;
  const actions = actionsOf(session, candidate);
  return {
    line,
    first: actions.map(lineOf),
    actions,
    setUp,
    reading,
    words: wasRounded(bench, session, candidate) ? `${words}; ${DIGITS}` : words,
    minutes,
    gain,
    separates,
    expects: expected(reading),
    ...(reading.kind === 'load' && { sights: answersFor(bench, reading.load, setUp) }),
    outcomes: wiggle === undefined ? outcomesOf(bench, reading, members) : wiggleOutcomes(members, wiggle.at),
    cautions: cautionsOn(bench, session, actions, reading),
  };
}

function expected(reading: Reading): Suggestion['expects'] {
  switch (reading.kind) {
    case 'volts':
    case 'ohms':
    case 'scan':
      return reading.kind;
    case 'continuity':
      return 'beep';
    case 'test lamp':
    case 'fuse lamp':
      return 'testlamp';
    case 'amps':
    case 'clamp':
      return 'amps';
    case 'load':
    case 'look':
      return 'sight';
  }
}

/** Everything to be careful about on the way to the reading and in it, each once. */
function cautionsOn(
  bench: Workbench,
  session: Case,
  actions: Suggestion['actions'],
  reading: Reading,
): Caution[] {
  const shown = new Map<string, Caution>();
  let setUp = session.now;
  const before = { timeline: session.timeline };
  for (const action of actions) {
    for (const caution of cautionsFor(bench.circuit, setUp, { type: 'did', action }, before))
      shown.set(caution.id, caution);
    setUp = edit(action, setUp);
  }
  for (const caution of cautionsFor(bench.circuit, setUp, { type: 'found', reading }, before))
    shown.set(caution.id, caution);
  return [...shown.values()].sort((a, b) => Number(b.stop) - Number(a.stop));
}
