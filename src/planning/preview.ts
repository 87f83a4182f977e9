/** What a test of a person's own choice would bring, before it is done: its outcomes, minutes and cautions, as of a suggestion. */
import type { Diagnosis } from '../diagnosis/diagnosis-types.js';
import type { Workbench } from '../diagnosis/workbench.js';
import { edit } from '../session/actions.js';
import type { Case } from '../session/case.js';
import type { Event, Reading } from '../session/events.js';
import { minutesBeginningWith } from './ahead.js';
import type { Candidate } from './candidate.js';
import { conditionsOf, hasFailed } from './condition.js';
import { LIKELY } from './next.js';
import type { Suggestion } from './suggestion.js';
import { toSuggestion } from './to-suggestion.js';
import { Scales } from './weigh.js';

/** Why there is nothing to show. */
export type NoPreview = 'nothing failed' | 'nothing to watch' | 'not forecast';

/**
 * @param line the test as it was typed, without a reading
 * @param events what the line would record; without a reading among them the load that failed is watched afterwards
 */
export function previewOf(
  bench: Workbench,
  session: Case,
  diagnosis: Diagnosis,
  line: string,
  events: readonly Event[],
): Suggestion | NoPreview {
  if (diagnosis.groups.length === 0 || !hasFailed(bench, session, diagnosis)) return 'nothing failed';
  const candidate = candidateOf(bench, session, diagnosis, line, events);
  if (candidate === undefined) return 'nothing to watch';
  const scales = new Scales(bench, session, diagnosis, LIKELY);
  const own = scales.weighOne(candidate);
  if (own === undefined) return 'not forecast';
  const suggestion = toSuggestion(bench, session, own, scales.members(candidate));
  const expectedMinutes = minutesBeginningWith(bench, session, diagnosis, scales, [own, ...scales.telling()]);
  return expectedMinutes === undefined ? suggestion : { ...suggestion, expectedMinutes };
}

function candidateOf(
  bench: Workbench,
  session: Case,
  diagnosis: Diagnosis,
  line: string,
  events: readonly Event[],
): Candidate | undefined {
  const [condition] = conditionsOf(bench, session, diagnosis);
  const operates = events.some(
    (event) =>
      (event.type === 'did' && (event.action.do === 'operate' || event.action.do === 'engine')) ||
      (event.type === 'found' && event.when !== undefined),
  );
  // Who says nothing of the controls means the condition in which it fails.
  const { controls, engine } = operates ? session.now : (condition?.setUp ?? session.now);
  let setUp = { ...session.now, controls, engine };
  let wiggle: Candidate['wiggle'];
  for (const event of events) {
    if (event.type !== 'did') continue;
    const { action } = event;
    if (action.do === 'wiggle' || action.do === 'clean' || action.do === 'tighten' || action.do === 'reseat')
      wiggle = action;
    setUp = edit(action, setUp);
  }
  const found = events.find((event) => event.type === 'found');
  if (found !== undefined) {
    const { reading, when } = found;
    if (when !== undefined) setUp = { ...setUp, controls: new Map([...setUp.controls, ...when]) };
    return { line, words: line, setUp, reading, bare: bareOf(reading), at: pointsOf(reading) };
  }
  const load = condition?.failed[0];
  if (load === undefined) return undefined;
  const reading: Reading = { kind: 'load', load, value: 'off' };
  const at = wiggle === undefined ? [] : [wiggle.at];
  return { line: load, words: `${line}, then watch ${load}`, setUp, wiggle, reading, bare: 'watch', at };
}

function pointsOf(reading: Reading): readonly string[] {
  if ('red' in reading) return [reading.red, reading.black].filter((point) => !point.startsWith('bat'));
  return 'part' in reading ? [reading.part] : [];
}

function bareOf(reading: Reading): Candidate['bare'] {
  switch (reading.kind) {
    case 'volts':
      if (reading.mode === 'loaded') return 'loaded';
      return reading.black === 'bat-' ? 'probe' : 'far-probe';
    case 'test lamp':
      return 'probe';
    case 'ohms':
    case 'continuity':
      return 'ohms';
    case 'clamp':
    case 'amps':
      return 'clamp';
    case 'scan':
      return 'scan';
    case 'fuse lamp':
      return 'watch';
    case 'load':
    case 'look':
      return 'look';
  }
}
