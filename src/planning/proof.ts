/** The test that would prove the suspect that leads: the drop across its own place under load. */
import type { Diagnosis } from '../diagnosis/diagnosis-types.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Case } from '../session/case.js';
import { candidates } from './candidates.js';
import { conditionsOf } from './condition.js';
import { Costs } from './cost.js';
import { forecasterOf } from './forecast.js';
import { askedAlready, questionOfCandidate } from './questions.js';
import type { Weighed } from './weigh.js';

/** Share that one repair must have before a drop proves it. */
const CLEAR_LEAD = 0.9;

/** Undefined where the leader is no bad joint or wire, has been measured already, or has no probe point on each side. */
export function proofOf(bench: Workbench, session: Case, diagnosis: Diagnosis): Weighed | undefined {
  const [leader] = diagnosis.suspects;
  if (leader === undefined || leader.confirmed || leader.faults.length > 1) return undefined;
  if (diagnosis.groups[0]!.share < CLEAR_LEAD) return undefined;
  const [{ site, id }] = leader.faults as [(typeof leader.faults)[number]];
  const index = bench.network.sites.get(site);
  if (index === undefined || !id.endsWith(' resistance')) return undefined;
  const { a, b } = bench.network.elements[index]!;
  const conditions = conditionsOf(bench, session, diagnosis);
  const forecaster = forecasterOf(bench, session);
  const asked = askedAlready(bench, forecaster, session);
  const costs = new Costs(bench.circuit, session);
  const [condition] = conditions;
  for (const candidate of candidates(bench, diagnosis, conditions)) {
    const { reading, setUp } = candidate;
    if (reading.kind !== 'volts' || condition === undefined) continue;
    if (forecaster.key(setUp) !== forecaster.key(condition.setUp)) continue;
    const ends = [reading.red, reading.black].map((point) => bench.network.points.get(point));
    if (!ends.includes(a) || !ends.includes(b)) continue;
    if (asked.has(questionOfCandidate(bench, forecaster, candidate))) return undefined;
    if (session.skipped.some(({ test }) => test === candidate.line)) return undefined;
    const cost = costs.of(candidate);
    return { ...cost, effort: cost.minutes, candidate, gain: 0, separates: false, value: 0 };
  }
  return undefined;
}
