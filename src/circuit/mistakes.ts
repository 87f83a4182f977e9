/** Where the rules put what they find while they go on looking. */
import type { Diagnostic, DiagnosticCode, Range } from './diagnostic.js';
import { parseQuantity, type Quantity } from './quantity.js';

export class Mistakes {
  readonly list: Diagnostic[] = [];

  error(code: DiagnosticCode, range: Range, message: string, mend: string): void {
    this.list.push({ code, severity: 'error', range, message, mend });
  }

  advice(code: DiagnosticCode, range: Range, message: string, mend: string): void {
    this.list.push({ code, severity: 'advice', range, message, mend });
  }

  get errors(): number {
    return this.list.filter((one) => one.severity === 'error').length;
  }

  /** An amount from the file; on a mistake it is noted and `fallback` keeps the other rules going. */
  amount(text: string | undefined, quantity: Quantity, range: Range, fallback: number): number {
    if (text === undefined) return fallback;
    const parsed = parseQuantity(text, quantity);
    if ('value' in parsed) return parsed.value;
    this.error(parsed.code, range, parsed.wrong, parsed.mend);
    return fallback;
  }
}
