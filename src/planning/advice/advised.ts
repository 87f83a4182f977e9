/** One piece of advice on a circuit file, before it has a place in it. */
import type { DiagnosticCode } from '../../circuit/diagnostic.js';

export interface Advice {
  readonly code: DiagnosticCode;
  /** JSON Pointer of what it is about, in the circuit file. */
  readonly at: string;
  readonly message: string;
  readonly mend: string;
}
