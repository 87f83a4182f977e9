/** A drawing on the screen: what is drawn of it, and what its lines look like where colour is on. */
import type { Circuit } from '../../circuit/circuit.js';
import { didYouMean } from '../../circuit/nearest.js';
import type { Status } from '../../diagnosis/diagnosis-types.js';
import type { DrawnLine } from '../../report/drawing/draw-text.js';
import { focusOn } from '../../report/drawing/focus.js';
import { planOf, type Plan } from '../../circuit/downhill.js';
import { Failure } from '../failure.js';
import type { Output, Tone } from '../output.js';

/** The whole circuit, or only what these parts and wires hang on; a filament, pin or terminal stands for its part. */
export function planFor(circuit: Circuit, typed: readonly string[]): Plan {
  if (typed.length === 0) return planOf(circuit);
  const known = [...circuit.parts.keys(), ...circuit.wires.map(({ id }) => id)];
  const names = typed.map((name) => {
    const found = known.find((one) => one.toLowerCase() === name.split('.')[0]!.toLowerCase());
    if (found === undefined)
      throw new Failure(`This circuit has no part or wire "${name}"`, didYouMean(name, known, 'part'));
    return found;
  });
  return planOf(circuit, focusOn(circuit, new Set(names)));
}

export function printDrawing(output: Output, lines: readonly DrawnLine[]): void {
  for (const { text, status } of lines) output.result(text, toneOf(status));
}

function toneOf(status: Status | undefined): Tone {
  switch (status) {
    case 'suspect':
      return 'warning';
    case 'confirmed':
      return 'error';
    case 'cleared':
      return 'good';
    case 'not on its own':
    case 'assumed':
      return 'faint';
    default:
      return 'plain';
  }
}
