/** Faults as the screens and the report name them. */
import type { FaultInfo } from './diagnosis-types.js';
import type { Fault } from './faults.js';

export function infoOf({ id, site, part, label, repair }: Fault): FaultInfo {
  return { id, site, part, label, repair };
}

export function hypothesisId(faults: readonly { readonly id: string }[]): string {
  return faults.map((fault) => fault.id).join(' + ');
}
