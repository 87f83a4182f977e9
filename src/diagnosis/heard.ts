/**
 * What a click tells of the readings beside it. The volts of a coil may leave both states of a relay open, but while nothing is done its
 * contacts stand in one: what was heard and what was read at the same time belong to the same state.
 */
import { LOW_IMPEDANCE_VOLTMETER } from '../network/meters.js';
import type { AddedElement } from '../network/solver-types.js';
import type { Evidence, EvidenceStep } from './evidence-types.js';
import type { Observation } from './observe.js';
import type { Workbench } from './workbench.js';

/**
 * What a finding observes, and what was observed just before it, with the relays as they were heard meanwhile: the volts of a coil
 * may leave both states open, but the contacts stood in one.
 * @param still observed in the same set-up with nothing done in between
 */
export function besideClicks(
  finding: number,
  observed: readonly Observation[],
  still: readonly Observation[],
): Observation[] {
  const heardIn = (list: readonly Observation[]) =>
    list.flatMap(({ hard, heard = [] }) => (hard ? heard : []));
  const [earlier, now] = [heardIn(still), heardIn(observed)];
  const own = observed.map((one) =>
    earlier.length === 0 || !leavesRelays(one) ? one : { ...one, heard: [...earlier, ...(one.heard ?? [])] },
  );
  if (now.length === 0) return own;
  return [
    ...own,
    ...still.filter(leavesRelays).map((one) => ({
      ...one,
      finding,
      retold: one.finding,
      heard: now,
    })),
  ];
}

/** A relay that was silent and clicks now, or the other way round, has moved though nothing was done: what went before is over. */
export function isHeardOtherwise(still: readonly Observation[], observed: readonly Observation[]): boolean {
  const before = still.flatMap(({ heard = [] }) => heard);
  return observed
    .flatMap(({ heard = [] }) => heard)
    .some(({ bit, pulled }) => before.some((one) => one.bit === bit && one.pulled !== pulled));
}

/** An eye, a clamp or a voltmeter changes nothing; a lamp or an ammeter may move a relay, and is off again when it is listened to. */
function leavesRelays({ kind, hard, added, quantity }: Observation): boolean {
  const eases = kind === 'load' || kind === 'clamp' || kind === 'volts';
  const loads = ({ a, b, law }: AddedElement) =>
    law === LOW_IMPEDANCE_VOLTMETER || (law.kind === 'curve' && a === quantity.a && b === quantity.b);
  return hard && eases && !added.some(loads);
}

/** The reading as it was given, with what was heard beside it: "silent (#3) while K1 clicked (#9)". */
export function shownBeside(
  { network }: Workbench,
  { shown, retold, quantity, heard = [] }: Observation,
): string {
  const clicks = heard
    .filter(({ bit }) => network.coils[bit] !== quantity.load)
    .map(({ finding, bit, pulled }) => {
      const { part } = network.elements[network.coils[bit]!]!;
      return `${part} ${pulled ? 'clicked' : 'was silent'} (#${finding})`;
    });
  const reading = retold === undefined ? shown : `${shown} (#${retold})`;
  return clicks.length === 0 ? reading : `${reading} while ${clicks.join(' and ')}`;
}

/** The evidence as if these findings had never been. */
export function withoutFindings(evidence: Evidence, numbers: readonly number[]): Evidence {
  const gone = (finding: number | undefined) => finding !== undefined && numbers.includes(finding);
  const steps = evidence.steps.flatMap((step): EvidenceStep[] => {
    if (step.kind !== 'observation') return [step];
    const { finding, retold, heard } = step.observation;
    if (gone(finding) || gone(retold)) return [];
    if (heard?.some((one) => gone(one.finding)) !== true) return [step];
    const left = heard.filter((one) => !gone(one.finding));
    return [{ ...step, observation: { ...step.observation, heard: left } }];
  });
  return { ...evidence, steps };
}
