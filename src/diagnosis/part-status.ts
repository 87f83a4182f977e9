/** Where each part and wire stands: suspect, not on its own, cleared, assumed, confirmed. */
import type { Case } from '../session/case.js';
import type { Fallen, PartStatus, Status, Suspect } from './diagnosis-types.js';
import { partLabel } from './labels.js';
import type { Workbench } from './workbench.js';

/**
 * Status of every part and wire that has faults, in the order of the circuit.
 * @param pairedWith parts that occur in a surviving pair; undefined while not every pair was judged, and then nothing is cleared
 */
export function partStatuses(
  bench: Workbench,
  session: Case,
  suspects: readonly Suspect[],
  fallen: readonly Fallen[],
  pairedWith: ReadonlySet<string> | undefined,
): PartStatus[] {
  const ids = [...new Set(bench.faults.map((fault) => fault.part))];
  const byPart = new Map<string, Suspect[]>(ids.map((id) => [id, []]));
  for (const suspect of suspects)
    for (const part of new Set(suspect.faults.map((fault) => fault.part))) byPart.get(part)?.push(suspect);
  return ids.map((part) => {
    const own = byPart.get(part)!;
    const share = own.reduce((sum, suspect) => sum + suspect.share, 0);
    return {
      part,
      label: partLabel(bench.circuit, part),
      status: statusOf(part, session, own, pairedWith),
      share,
      best: own[0]?.faults.find((fault) => fault.part === part),
      fallen: fallen.filter((entry) => entry.faults[0]!.part === part),
    };
  });
}

function statusOf(
  part: string,
  session: Case,
  own: readonly Suspect[],
  pairedWith: ReadonlySet<string> | undefined,
): Status {
  if (session.assumed.includes(part)) return 'assumed';
  if (own.some((suspect) => suspect.confirmed)) return 'confirmed';
  if (own.length > 0) return 'suspect';
  return pairedWith === undefined || pairedWith.has(part) ? 'not on its own' : 'cleared';
}
