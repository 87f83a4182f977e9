/** What the program asks of the person before any further test: a proof of the meter, the repeat after a repair, a complaint. */
import type { Case, Finding } from '../session/case.js';
import type { MeterMode } from '../session/events.js';
import { modeOf } from '../session/proof.js';
import { atRest } from '../session/setup.js';
import type { FindingSense } from './diagnosis-types.js';
import { isGoodSight } from './good-sights.js';
import type { RepairProof } from './proof-of-repair.js';
import { isRepair } from './proof-of-repair.js';
import { knownBattery } from './source-for.js';
import type { Workbench } from './workbench.js';

/** How each mode is shown to work, in seconds. An ohmmeter never goes near a live point. */
const PROOFS: Readonly<Record<MeterMode, { readonly how: string; readonly word: string }>> = {
  volts: { how: 'read a point known to be live', word: 'volts' },
  ohms: { how: 'touch the two leads together, it must show nearly nothing', word: 'ohms' },
  amps: { how: 'read a circuit known to draw current', word: 'amps' },
  clamp: { how: 'put it around a wire known to carry current', word: 'clamp' },
  'test lamp': { how: 'touch a point known to be live, it must light', word: 'testlamp' },
  scan: { how: 'read a value known to be there', word: 'scan' },
};

/** What comes and goes is measured while it is there. */
const GONE =
  'The complaint is gone just now, and what is measured is a vehicle in order: wiggle, shake, warm or drive it until the complaint is back';

/** A load that a good vehicle with a weak battery might show so too. */
function batteryWanted(bench: Workbench, session: Case, senses: readonly FindingSense[]): string[] {
  const findings = session.timeline.flatMap((step) => (step.kind === 'finding' ? [step.finding] : []));
  if (senses.some(({ abnormal }) => abnormal) || findings.some((finding) => knownBattery(finding))) return [];
  const doubtful = findings.find((finding) => {
    const sense = senses.find(({ number }) => number === finding.number);
    if (finding.reading.kind !== 'load' || finding.evidence === 'told' || sense === undefined) return false;
    return !isGoodSight(bench, finding) && sense.prediction !== sense.reading;
  });
  if (doubtful === undefined) return [];
  return [
    `Finding #${doubtful.number} could also come from a weak battery: measure it with that load switched on, like: volts bat+ 12.6`,
  ];
}

/**
 * @param senses what each finding says
 * @param isSilent nothing that says anything was found yet
 * @param isGone the complaint was there and is not now
 */
export function asks(
  bench: Workbench,
  session: Case,
  proof: RepairProof,
  senses: readonly FindingSense[],
  { isSilent, isGone }: { readonly isSilent: boolean; readonly isGone: boolean },
): string[] {
  return [
    ...unprovedReading(session),
    ...failedCondition(bench, proof),
    ...(isGone && proof.corrections.length === 0 ? [GONE] : []),
    ...batteryWanted(bench, session, senses),
    ...(isSilent ? [complaintWanted(bench)] : []),
  ];
}

function unprovedReading(session: Case): string[] {
  const finding = session.timeline
    .flatMap((step) => (step.kind === 'finding' ? [step.finding] : []))
    .find(({ proved, evidence }) => !proved && evidence !== 'told');
  const mode = finding === undefined ? undefined : modeOf(finding.reading);
  if (finding === undefined || mode === undefined) return [];
  const { how, word } = PROOFS[mode];
  return [
    `Finding #${finding.number} could also come from a meter or lead that does not work: ${how}, then type: prove ${word}`,
  ];
}

/** After a repair nothing tells more than looking whether it cured. */
function failedCondition(bench: Workbench, { corrections, conditions }: RepairProof): string[] {
  if (!corrections.some(isRepair)) return [];
  return conditions
    .filter(({ again }) => again === 'not repeated')
    .slice(0, 1)
    .map(({ load, finding }) => {
      const line = ['works', load, ...whenWords(bench, finding)].join(' ');
      return `Repeat the failed condition and say what ${load} does now, like: ${line}`;
    });
}

function whenWords({ circuit }: Workbench, { setUp }: Finding): string[] {
  const rest = atRest(circuit).controls;
  const worked = [...setUp.controls].filter(([control, position]) => rest.get(control) !== position);
  return worked.length === 0 ? [] : ['when', worked.map((pair) => pair.join(' ')).join(', ')];
}

function complaintWanted({ network, circuit }: Workbench): string {
  const load = [...network.loads.keys()][0] ?? 'H1';
  const control = [...circuit.controls.values()][0];
  const when = control === undefined ? '' : ` when ${control.id} ${control.positions.at(-1)!}`;
  return `Say what fails and what works, in which condition, like: fails ${load}${when}`;
}
