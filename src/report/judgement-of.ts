/** A diagnosis brought down to what a replay compares: who fits, who fell by what, what leads, and what it is called. */
import type { Circuit } from '../circuit/circuit.js';
import type { Diagnosis } from '../diagnosis/diagnosis-types.js';
import type { Case } from '../session/case.js';
import {
  JUDGEMENT_VERSION,
  type FallenThen,
  type Judgement,
  type SeverityThen,
} from '../session/judgement.js';
import { causeOf } from './cause.js';
import type { Cause } from './report-data.js';
import { verify } from './verification.js';

/** No record holds more than a number: what has no upper end stands as this many ohms. */
const NO_END = 1e12;

export interface Judged {
  readonly circuit: Circuit;
  readonly session: Case;
  readonly diagnosis: Diagnosis;
  readonly program: string;
  readonly drawing: Judgement['drawing'];
  readonly next?: string | undefined;
}

export function judgementOf({ circuit, session, diagnosis, program, drawing, next }: Judged): Judgement {
  const { certainty, parts } = reportedCause(circuit, session, diagnosis);
  return {
    version: JUDGEMENT_VERSION,
    program,
    drawing,
    suspects: diagnosis.suspects.map(({ hypothesis }) => hypothesis),
    lead: leadingParts(diagnosis, 1),
    fallen: fallenOf(diagnosis),
    findings: diagnosis.findings.map(({ number, prediction, reading, abnormal }) => ({
      number,
      healthy: prediction,
      reading,
      abnormal,
    })),
    severities: severitiesOf(diagnosis),
    fits: diagnosis.fits,
    verified: diagnosis.verified,
    open: leadingOpen(diagnosis),
    cause: { certainty, parts },
    ...(next === undefined ? {} : { next }),
  };
}

/** What the report of this session calls the cause. */
export function reportedCause(circuit: Circuit, session: Case, diagnosis: Diagnosis): Cause {
  const abnormal = new Set(diagnosis.findings.filter((one) => one.abnormal).map(({ number }) => number));
  return causeOf(session, diagnosis, verify(circuit, session.timeline, abnormal));
}

/** The parts of the likeliest explanations, as many as are asked for, equals together. */
export function leadingParts(diagnosis: Diagnosis, count: number): readonly string[] {
  const shares = new Map<string, number>();
  for (const { faults, share } of diagnosis.suspects)
    for (const part of new Set(faults.map((fault) => fault.part)))
      shares.set(part, (shares.get(part) ?? 0) + share);
  const ranked = [...shares].sort(([, a], [, b]) => b - a);
  const least = ranked[Math.min(count, ranked.length) - 1]?.[1] ?? 0;
  return ranked.filter(([, share]) => share >= least * (1 - 1e-9)).map(([part]) => part);
}

/** The open explanation that weighs most, or `none`. */
export function leadingOpen({ open }: Diagnosis): string {
  return [...open].sort((a, b) => b.share - a.share)[0]?.what ?? 'none';
}

/** Many faults fall alike: they stand together under what they would have read. */
function fallenOf({ fallen }: Diagnosis): readonly FallenThen[] {
  const groups = new Map<string, FallenThen & { faults: string[] }>();
  for (const { hypothesis, reason } of fallen) {
    const key = JSON.stringify(reason);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { ...reason, faults: [hypothesis] });
    else group.faults.push(hypothesis);
  }
  return [...groups.values()];
}

function severitiesOf({ suspects }: Diagnosis): readonly SeverityThen[] {
  const known = new Map<string, SeverityThen>();
  for (const { faults, severities } of suspects)
    faults.forEach(({ id }, index) => {
      const fitted = severities[index];
      if (fitted === undefined || known.has(id)) return;
      const { unit, low, high } = fitted;
      known.set(id, { fault: id, unit, low: rounded(low), high: rounded(high) });
    });
  return [...known.values()];
}

function rounded(value: number): number {
  return Number(Math.min(value, NO_END).toPrecision(4));
}
