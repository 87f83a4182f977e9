/** The cause, and never more certainty than the readings and the repair give it. */
import type { Diagnosis, FaultInfo, Suspect } from '../diagnosis/diagnosis-types.js';
import { isRepair } from '../diagnosis/proof-of-repair.js';
import type { Case } from '../session/case.js';
import type { Action } from '../session/events.js';
import { listWords } from './layout.js';
import type { Cause, Certainty } from './report-data.js';
import { suspectSeverities } from './severity-words.js';
import type { Proof } from './verification.js';

export function causeOf(session: Case, diagnosis: Diagnosis, proof: Proof): Cause {
  const group = chosenGroup(session, diagnosis, proof);
  const conclusion = session.concluded?.words;
  const said = conclusion === undefined ? {} : { conclusion };
  const top = group[0];
  if (top === undefined) {
    const named = session.concluded?.at.split(/[./:]/)[0];
    const parts = named === undefined ? [] : [named];
    return {
      certainty: 'not found',
      faults: [],
      inShort: '',
      parts,
      share: 0,
      measuredShare: 0,
      course: 'either',
      explains: [],
      grounds: groundsOfNothing(session, diagnosis),
      ...said,
    };
  }
  const [certainty, grounds] = howSure(diagnosis, group, proof);
  const severity = suspectSeverities(top, 'with place').join('; and ');
  return {
    certainty,
    grounds,
    faults: [...new Set(group.map(faultWords))],
    inShort: inShort(group),
    parts: [...new Set(group.flatMap((suspect) => suspect.faults.map((fault) => fault.part)))],
    share: group.reduce((sum, suspect) => sum + suspect.share, 0),
    measuredShare: group.reduce((sum, suspect) => sum + suspect.measuredShare, 0),
    course: group.every(({ course }) => course === top.course) ? top.course : 'either',
    explains: top.explains.map(({ finding, reading, prediction, healthy }) => ({
      finding,
      reading,
      predicted: prediction,
      healthy,
    })),
    ...(severity === '' ? {} : { severity }),
    ...said,
  };
}

/** "a bad contact at K1" for several contacts of one part, the fault itself where it is alone there; few pairs are told in full. */
function inShort(group: readonly Suspect[]): string {
  const pairs = group.some(({ faults }) => faults.length > 1);
  const words = [...new Set(group.map(faultWords))];
  if (pairs && words.length <= MOST_PAIRS) return listWords(words, 'or');
  const byPart = new Map<string, FaultInfo[]>();
  for (const fault of group.flatMap(({ faults }) => faults))
    byPart.set(fault.part, [...(byPart.get(fault.part) ?? []), fault]);
  const places = [...byPart].map(([part, faults]) => {
    const [first] = faults;
    if (faults.every(({ label }) => label === first!.label)) return first!.label;
    return faults.every(({ id }) => id.endsWith(' resistance'))
      ? `a bad contact at ${part}`
      : `a fault at ${part} or its contacts`;
  });
  return places.length > MOST_PLACES
    ? `one of ${places.length} places named below`
    : listWords(places, pairs ? 'and' : 'or');
}

/** Beyond this many pairs the customer is told places only. */
const MOST_PAIRS = 2;
const MOST_PLACES = 3;

/** "high resistance at X3.1" or, for a pair, both joined by "together with". */
export function faultWords(suspect: Suspect): string {
  const { faults, besides = [] } = suspect;
  const left = faults.map((fault) => fault.label).join(', together with ');
  return besides.length === 0
    ? left
    : `${left}, left over beside ${besides.map(({ label }) => label).join(' and ')}`;
}

/** Suspects with less than this part of the leader's share are left to the list of what remains. */
const WORTH_NAMING = 0.1;

/** What the report calls the cause: where the technician says, else where the repair cured it, else the leading group. */
function chosenGroup(session: Case, diagnosis: Diagnosis, proof: Proof): readonly Suspect[] {
  const { groups, suspects } = diagnosis;
  // Work at a part reaches its item and its contacts alike: all that fits there is named, whatever repair each would need.
  const at = (place: string): readonly Suspect[] => {
    const there = suspects.filter((suspect) => isAt(suspect, place));
    const best = Math.max(...there.map((suspect) => suspect.share));
    return there.filter((suspect) => suspect.confirmed || suspect.share >= WORTH_NAMING * best);
  };
  if (session.concluded !== undefined) return at(session.concluded.at);
  if (proof.state === 'verified')
    for (const action of proof.corrections) {
      if (proof.inVain.has(action)) continue;
      const there = at(placeOf(action));
      if (there.length > 0) return there;
    }
  return groups.find((group) => group.suspects.length > 0)?.suspects ?? suspects.slice(0, 1);
}

function placeOf(action: Action): string {
  return 'at' in action ? action.at : 'part' in action ? action.part : '';
}

/** Does the suspect sit at this part, wire, site or point? */
function isAt(suspect: Pick<Suspect, 'faults'>, at: string): boolean {
  const plain = at.replace(/[hci]$/, '');
  return suspect.faults.some(
    (fault) =>
      fault.part === at || fault.site === at || fault.site === plain || fault.site.startsWith(`${at}.`),
  );
}

function howSure(
  diagnosis: Diagnosis,
  group: readonly Suspect[],
  proof: Proof,
): readonly [Certainty, string] {
  const touched = group.some((suspect) => suspect.touched);
  const mended = proof.corrections
    .filter((action) => isRepair(action) && !proof.inVain.has(action))
    .filter((action) => group.some((suspect) => isAt(suspect, placeOf(action))));
  if (proof.state === 'verified' && mended.length > 0 && !proof.recoveredBefore) {
    const cured = 'It failed until this was repaired, and every failed condition was good afterwards.';
    const unsure = group.length > 1 || mended.some((action) => action.do === 'fit new');
    const caveat = ' The same work disturbed the contacts there: a removed item by itself is not proved bad.';
    return ['confirmed', unsure ? cured + caveat : cured];
  }
  if (group.some((suspect) => suspect.confirmed))
    return ['confirmed', 'Positive evidence was recorded at this place.'];
  if (touched && !proof.recoveredBefore)
    return [
      'most likely',
      'What is named here was disturbed since the complaint was last there: see first whether it still is. Not confirmed.',
    ];
  if (proof.recoveredBefore)
    return [
      'most likely',
      'It worked again after parts had been disturbed. That puts the contacts disturbed first; it proves no part bad, and the fault can come back.',
    ];
  const others = diagnosis.suspects.filter((suspect) => !group.includes(suspect));
  if (others.length === 0 && diagnosis.fits && !diagnosis.paired)
    return [
      'only one left',
      'The only one left in this drawing that explains the readings; not confirmed by a measurement across it or by a repair.',
    ];
  return ['most likely', 'Other explanations remain (listed below); not confirmed.'];
}

function groundsOfNothing(session: Case, diagnosis: Diagnosis): string {
  const at = session.concluded?.at;
  if (at !== undefined) {
    const against = diagnosis.fallen.find((one) => isAt(one, at));
    return against === undefined
      ? `The readings do not point to ${at}: the conclusion is the technician's own.`
      : `The readings speak against ${at}: finding ${against.reason.finding} read ${against.reason.reading}, where a fault there predicts ${against.reason.prediction}.`;
  }
  return diagnosis.fits
    ? 'No cause has been found yet.'
    : 'No single fault in this drawing explains all findings: a reading may be wrong, the fault may not be present now, or this vehicle differs from the drawing.';
}
