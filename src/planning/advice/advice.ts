/** What is right in a circuit file but could be better: what a careful person would say who knows the whole network. */
import type { Diagnostic, Ranges } from '../../circuit/diagnostic.js';
import { sorted } from '../../circuit/diagnostic.js';
import { planOf } from '../../circuit/downhill.js';
import type { Workbench } from '../../diagnosis/workbench.js';
import { adviseAlike } from './alike-faults.js';
import { adviseThinForFuse } from './fuse-and-wire.js';
import { adviseUnfused } from './unfused.js';
import { adviseThin } from './voltage-drop.js';
import { adviseWitness } from './witness.js';

/** In the order of the file. `ranges` are those of the file the circuit was read from. */
export function adviseOn(bench: Workbench, ranges: Ranges): Diagnostic[] {
  const plan = planOf(bench.circuit);
  const found = [
    ...adviseUnfused(plan),
    ...adviseThinForFuse(plan),
    ...adviseThin(bench, plan),
    ...adviseWitness(plan),
    ...adviseAlike(bench),
  ];
  return sorted(
    found.map(({ code, at, message, mend }) => ({
      code,
      severity: 'advice',
      range: ranges.value(at),
      message,
      mend,
    })),
  );
}
