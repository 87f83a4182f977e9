/** A hand-made session and diagnosis for the report tests: one lamp, one connector. Demo data. */
import type { Circuit } from '../../src/circuit/circuit.js';
import type { Diagnosis, FaultInfo, FindingSense, Suspect } from '../../src/diagnosis/diagnosis-types.js';
import { foldCase } from '../../src/session/fold.js';
import type { Event, Recorded } from '../../src/session/events.js';
import { buildReport, type ReportInput, type Report } from '../../src/report/report.js';
import { cautionCircuit } from '../planning/caution-circuit.js';

export const circuit: Circuit = cautionCircuit;

export function fault(
  site: string,
  part = site.split('.')[0]!,
  label = `high resistance or open at ${site}`,
): FaultInfo {
  return { id: site, site, part, label, repair: { how: 'clean', minutes: 5, price: 0 } };
}

export function suspect(site: string, more: Partial<Suspect> = {}): Suspect {
  return {
    hypothesis: site,
    faults: [fault(site)],
    share: 0.5,
    measuredShare: 0.5,
    soft: [],
    severities: [],
    course: 'either',
    explains: [],
    confirmed: false,
    touched: false,
    away: false,
    ...more,
  };
}

export function diagnosisOf(suspects: readonly Suspect[], more: Partial<Diagnosis> = {}): Diagnosis {
  return {
    suspects,
    groups: suspects.map((one) => ({ repair: one.faults[0]!.repair, suspects: [one], share: one.share })),
    paired: false,
    pairsExamined: { done: 0, of: 0 },
    survivingPairs: [],
    fallen: [],
    parts: [],
    fits: true,
    abnormal: true,
    gone: false,
    open: [],
    findings: [],
    asks: [],
    verified: false,
    blown: [],
    hidden: [],
    assumedAway: [],
    triples: false,
    ...more,
  };
}

/** Numbers events from 1, a minute apart from 10:00. */
export function journal(events: readonly Event[]): readonly Recorded[] {
  const opened: Event = {
    type: 'opened',
    format: 1,
    program: 'knowngood 0.1.0',
    circuit: { id: circuit.id, hash: 'abc123', file: 'demo.yaml' },
  };
  return [opened, ...events].map((event, index) => ({
    number: index + 1,
    at: `2024-05-06T10:${String(index).padStart(2, '0')}:00Z`,
    event,
  }));
}

export const lampOn: readonly (readonly [string, string])[] = [['lamps', 'on']];
export const lamp = (value: 'lit' | 'off'): Event => ({
  type: 'found',
  reading: { kind: 'load', load: 'H1', value },
  when: lampOn,
  symptom: value === 'off' ? 'present' : 'absent',
});

/** What the diagnosis says of one finding. */
export function sense(number: number, abnormal: boolean, provedWhat = ''): FindingSense {
  return { number, provedWhat, abnormal, hard: true, prediction: '', reading: '' };
}

/** Findings that a healthy lamp would not show: those with the lamp off. */
function abnormalOf(events: readonly Recorded[]): Diagnosis['findings'] {
  return events.flatMap(({ number, event }) =>
    event.type === 'found' && event.reading.kind === 'load'
      ? [sense(number, event.reading.value === 'off')]
      : [],
  );
}

export function reportOf(
  events: readonly Event[],
  diagnosis: Diagnosis,
  more: Partial<ReportInput> = {},
): Report {
  const recorded = journal(events);
  const findings = diagnosis.findings.length > 0 ? diagnosis.findings : abnormalOf(recorded);
  return buildReport({
    circuit,
    session: foldCase(circuit, recorded),
    diagnosis: { ...diagnosis, findings },
    program: 'knowngood 0.1.0',
    sessionHash: 'f00d',
    personal: true,
    cautions: [],
    ...more,
  });
}
