/**
 * What to test next: for every test there is, how much it is expected to tell about which repair is needed, per minute.
 * One step ahead. Among near equals the test that disturbs nothing.
 */
import type { Diagnosis } from '../diagnosis/diagnosis-types.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Case } from '../session/case.js';
import type { Reading } from '../session/events.js';
import type { Caution } from './cautions.js';
import { cautionsFor } from './cautions.js';
import { lineOf } from './changes.js';
import { hasFailed } from './condition.js';
import { actionsOf } from './cost.js';
import { edit } from '../session/actions.js';
import type { Member } from './outcome-words.js';
import { outcomesOf, wiggleOutcomes } from './outcome-words.js';
import type { Suggestion } from './suggestion.js';
import { complaintMeasured } from './measured-complaint.js';
import { proofOf } from './proof.js';
import type { Aim, Weighed } from './weigh.js';
import { Scales } from './weigh.js';

const MOST_SUGGESTIONS = 3;

/** What to tell apart, in this order, each once nothing serves the one before. */
const AIMS: readonly Aim[] = [
  // Suspects beyond this share of the weight do not steer the choice, as long as others do.
  { enough: 0.995, even: false, apart: 'repairs' },
  { enough: 1, even: true, apart: 'repairs' },
  { enough: 1, even: true, apart: 'suspects' },
];

/**
 * Tests worth doing, best first: to measure a complaint that only an eye has seen; to tell repairs apart; when none does any more, the faults that one repair mends; then the one
 * that would prove the suspect that is left. None when nothing has been found wrong, or no test within reach serves.
 */
export function suggest(bench: Workbench, session: Case, diagnosis: Diagnosis): Suggestion[] {
  const { groups, suspects } = diagnosis;
  if (suspects.length === 0 || !hasFailed(bench, session, diagnosis)) return [];
  if (suspects.some(({ confirmed }) => confirmed) && groups.length < 2) return [];
  const complaint = complaintMeasured(bench, session, diagnosis);
  if (complaint !== undefined) {
    const scales = new Scales(bench, session, diagnosis, AIMS[0]!);
    return [toSuggestion(bench, session, complaint, scales.members(complaint.candidate))];
  }
  for (const aim of AIMS) {
    const left = aim.apart === 'repairs' ? groups.length : suspects.length;
    if (left < 2) continue;
    const chosen = presented(bench, session, new Scales(bench, session, diagnosis, aim));
    if (chosen.length > 0) return chosen;
  }
  const proof = proofOf(bench, session, diagnosis);
  if (proof === undefined) return [];
  const means = `proves ${suspects[0]!.faults[0]!.label}`;
  const outcomes = [{ when: 'clearly more than 0.2 V', means, chance: 1 }];
  return [{ ...toSuggestion(bench, session, proof, []), outcomes }];
}

/** The best in words, without those that call for a caution nobody should have to pass. */
function presented(bench: Workbench, session: Case, scales: Scales): Suggestion[] {
  return scales.best(MOST_SUGGESTIONS).flatMap((weighed) => {
    const suggestion = toSuggestion(bench, session, weighed, scales.members(weighed.candidate));
    return suggestion.cautions.some(({ id, refused }) => refused || id === 'ohms-live') ? [] : [suggestion];
  });
}

function toSuggestion(
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
    words,
    minutes,
    gain,
    separates,
    expects: expected(reading),
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
