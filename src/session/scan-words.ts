/** What a scan tool can show of a module's inputs, in the words of the circuit file. */
import type { Circuit, ModuleInput } from '../circuit/circuit.js';

/** Inputs of all modules: `A1.3` to what the file says of it. */
export function scanInputs(circuit: Circuit): ReadonlyMap<string, ModuleInput> {
  return new Map(
    [...circuit.parts.values()].flatMap((part) =>
      part.type === 'module'
        ? part.inputs.map((input) => [`${part.id}.${input.terminal}`, input] as const)
        : [],
    ),
  );
}

/** The input's words, high first; none where it reads volts or the file does not say. */
export function scanWords({ reads }: ModuleInput): readonly string[] {
  return typeof reads === 'object' ? [reads.high, reads.low] : [];
}

/** What may be recorded of the input, for a message. */
export function scanChoices(input: ModuleInput): string {
  return [...scanWords(input), 'volts such as 4.9', 'no answer'].join(', ');
}
