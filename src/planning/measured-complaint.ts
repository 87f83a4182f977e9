/**
 * A load called dim, weak or slow may be a healthy one at low volts: as long as no meter has shown it, hardly a fault can be
 * ruled out, for each might be too mild to show. The volts across the load itself, as it fails, settle that first.
 */
import type { Diagnosis } from '../diagnosis/diagnosis-types.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Case } from '../session/case.js';
import { candidates } from './candidates.js';
import { conditionsOf } from './condition.js';
import { Costs } from './cost.js';
import { forecasterOf } from './forecast.js';
import { askedAlready, questionOfCandidate } from './questions.js';
import type { Weighed } from './weigh.js';

/** Undefined when something is out of order beyond doubt, or the load was measured already or cannot be reached. */
export function complaintMeasured(
  bench: Workbench,
  session: Case,
  diagnosis: Diagnosis,
): Weighed | undefined {
  if (diagnosis.abnormal) return undefined;
  const conditions = conditionsOf(bench, session, diagnosis);
  const [condition] = conditions;
  const load = bench.network.loads.get(condition?.failed[0] ?? '');
  if (condition === undefined || load === undefined) return undefined;
  const forecaster = forecasterOf(bench, session);
  const asked = askedAlready(bench, forecaster, session);
  const costs = new Costs(bench.circuit, session);
  const own = (point: string) => point.startsWith(`${load.part}.`);
  for (const candidate of candidates(bench, diagnosis, conditions)) {
    const { reading, setUp } = candidate;
    if (reading.kind !== 'volts' || !own(reading.red) || !own(reading.black)) continue;
    // A lamp of several filaments is watched by the terminal of the one.
    if (load.id.includes('.') && reading.red !== load.id) continue;
    if (forecaster.key(setUp) !== forecaster.key(condition.setUp)) continue;
    if (asked.has(questionOfCandidate(bench, forecaster, candidate))) continue;
    if (session.skipped.some(({ test }) => test === candidate.line)) continue;
    const cost = costs.of(candidate);
    return { ...cost, effort: cost.minutes, candidate, gain: 0, separates: false, value: 0 };
  }
  return undefined;
}
