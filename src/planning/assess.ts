/** The diagnosis as people are shown it: what fits only at the far edge of what can be counts for less. */
import { diagnose, type Depth } from '../diagnosis/diagnose.js';
import type { Diagnosis, EdgeFits } from '../diagnosis/diagnosis-types.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Case } from '../session/case.js';
import { Agreement } from './agreement.js';
import { surroundingsOf } from './battery-known.js';
import { conditionsOf } from './condition.js';
import { forecasterOf } from './forecast.js';
import { faultsById, MOST_PAIRS, MOST_SUSPECTS, versionsOf } from './likely.js';

export function assess(bench: Workbench, session: Case, depth: Omit<Depth, 'edgeFits'> = {}): Diagnosis {
  return diagnose(bench, session, { ...depth, edgeFits: edgeFits(bench, session) });
}

/** By forecasts at nominal values, for as many suspects as are planned with. */
function edgeFits(bench: Workbench, session: Case): EdgeFits {
  return (suspects, ranges, findings) => {
    if (suspects.length < 2) return suspects.map(() => undefined);
    const forecaster = forecasterOf(bench, session);
    const agreement = new Agreement(bench, session, forecaster, surroundingsOf(bench, session));
    const failed = conditionsOf(bench, session, { findings })[0]?.setUp ?? session.now;
    const judgement = {
      misfits: (version: Parameters<typeof agreement.misfits>[0]) => agreement.misfits(version),
      blownBy: (version: Parameters<typeof agreement.misfits>[0]) => forecaster.blownBy(version, failed),
    };
    const byId = faultsById(bench);
    return suspects.map(({ faults, away }, number) => {
      if (away || number >= (faults.length > 1 ? MOST_PAIRS : MOST_SUSPECTS)) return undefined;
      const own = faults.map(({ id }) => byId.get(id)!);
      const [best] = versionsOf(bench, own, ranges[number]!, true, judgement);
      return agreement.missed(best!);
    });
  };
}
