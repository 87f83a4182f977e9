/** Independent reference: nodal matrix, Gaussian elimination with row pivoting. Shares nothing with the solver but the laws. */
import { lawChord, lawCurrent } from '../../src/network/laws.js';
import { LEAK_SIEMENS } from '../../src/network/reduced-network.js';
import type { Row } from './raw-network.js';

function gauss(matrix: number[][], right: number[]): number[] {
  const n = right.length;
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(rows[i]![k]!) > Math.abs(rows[pivot]![k]!)) pivot = i;
    [rows[k], rows[pivot]] = [rows[pivot]!, rows[k]!];
    for (let i = k + 1; i < n; i++) {
      const factor = rows[i]![k]! / rows[k]![k]!;
      if (factor !== 0) for (let j = k; j <= n; j++) rows[i]![j]! -= factor * rows[k]![j]!;
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k--) {
    let sum = rows[k]![n]!;
    for (let j = k + 1; j < n; j++) sum -= rows[k]![j]! * x[j]!;
    x[k] = sum / rows[k]![k]!;
  }
  return x;
}

/** Volts of every node. Curves by damped fixed-point steps with I/V, a few hundred of them. */
export function denseVolts(rows: readonly Row[], leak = LEAK_SIEMENS): number[] {
  const nodes = 1 + Math.max(1, ...rows.flatMap(([, a, b]) => [a, b]));
  let volts = new Array<number>(nodes).fill(0);
  const curved = rows.some(([, , , law]) => law.kind === 'curve');
  for (let step = 0; step < (curved ? 300 : 1); step++) {
    const matrix = Array.from({ length: nodes }, () => new Array<number>(nodes).fill(0));
    const right = new Array<number>(nodes).fill(0);
    const stamp = (a: number, b: number, siemens: number) => {
      matrix[a]![a]! += siemens;
      matrix[b]![b]! += siemens;
      matrix[a]![b]! -= siemens;
      matrix[b]![a]! -= siemens;
    };
    for (let node = 0; node < nodes; node++) if (node !== 1) stamp(node, 1, leak);
    for (const [, a, b, law] of rows) {
      const siemens = law.kind === 'source' ? 1 / law.ohms : lawChord(law, volts[a]! - volts[b]!);
      stamp(a, b, siemens);
      if (law.kind !== 'source') continue;
      right[a]! -= lawCurrent(law, 0);
      right[b]! += lawCurrent(law, 0);
    }
    const inner = gauss(
      matrix.slice(1).map((row) => row.slice(1)),
      right.slice(1),
    );
    const next = [0, ...inner];
    volts = step === 0 ? next : volts.map((old, i) => 0.3 * old + 0.7 * next[i]!);
  }
  return volts;
}
