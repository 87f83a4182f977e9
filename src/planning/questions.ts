/** When two tests ask the same: same set-up, same kind of reading, the same nodes whatever their points are called. */
import type { Workbench } from '../diagnosis/workbench.js';
import type { Case } from '../session/case.js';
import type { Reading } from '../session/events.js';
import type { SetUp } from '../session/setup.js';
import type { Candidate } from './candidate.js';
import type { Forecaster } from './forecast.js';

export function questionOf(bench: Workbench, forecaster: Forecaster, setUp: SetUp, reading: Reading): string {
  return `${forecaster.key(setUp)}#${askedIn(bench, reading)}`;
}

function askedIn(bench: Workbench, reading: Reading): string {
  switch (reading.kind) {
    case 'volts':
    case 'ohms':
    case 'continuity':
    case 'test lamp': {
      const nodes = [reading.red, reading.black].map((point) => bench.network.points.get(point) ?? -1);
      return `${reading.kind} ${nodes.sort((a, b) => a - b).join()}`;
    }
    case 'load':
      return `load ${reading.load}`;
    case 'fuse lamp':
      return `fuse lamp ${reading.part}`;
    case 'scan':
      return `scan ${reading.module} ${reading.input}`;
    case 'amps':
    case 'clamp':
    case 'look':
      return `${reading.kind} ${reading.at}`;
  }
}

/** What was read in this session already, and which wiggles were done. */
export function askedAlready(bench: Workbench, forecaster: Forecaster, session: Case): ReadonlySet<string> {
  const asked = new Set<string>();
  for (const step of session.timeline) {
    if (step.kind === 'finding') {
      const { setUp, reading, evidence } = step.finding;
      if (evidence !== 'told') asked.add(questionOf(bench, forecaster, setUp, reading));
    } else if (step.action.do === 'wiggle') asked.add(`wiggle ${step.action.at}`);
  }
  return asked;
}

/** The name under which a candidate counts as asked. */
export function questionOfCandidate(bench: Workbench, forecaster: Forecaster, candidate: Candidate): string {
  const { wiggle, setUp, reading } = candidate;
  return wiggle === undefined ? questionOf(bench, forecaster, setUp, reading) : `wiggle ${wiggle.at}`;
}
