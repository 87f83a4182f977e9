/** Control positions in a typed line: `gear reverse`, `when key on, gear reverse`. */
import { nearest } from '../../circuit/nearest.js';
import { ENGINE } from '../standing.js';
import type { LineContext } from './context.js';
import type { Cursor } from './cursor.js';
import { LineProblem } from './problem.js';

export type Position = readonly [control: string, position: string];

const NOISE = ['in', 'is', 'to', 'at', 'and', 'the', 'set'];

/** One or more control positions up to the end of the cursor. `bare`: a position that only one control has may stand alone. */
export function takePositions(cursor: Cursor, context: LineContext, bare: boolean): readonly Position[] {
  const positions: Position[] = [];
  do {
    positions.push(takePosition(cursor, context, bare));
    cursor.skipNoise(['and']);
  } while (!cursor.done);
  return positions;
}

function takePosition(cursor: Cursor, { circuit, names }: LineContext, bare: boolean): Position {
  cursor.skipNoise(['and', 'the', 'with', 'set']);
  const token = cursor.peek();
  const all = [...circuit.controls.values()];
  const known = [...circuit.controls.keys(), ENGINE];
  if (!token)
    throw new LineProblem(
      cursor.at,
      'A control and its position are missing',
      `Controls: ${known.join(', ')}.`,
    );
  const control = cursor.takeName(names.controls);
  if (control !== undefined) {
    const { positions } = circuit.controls.get(control)!;
    return [control, takeWord(cursor, control, positions)];
  }
  if (token.lower === ENGINE) {
    cursor.skip(1);
    return [ENGINE, takeWord(cursor, ENGINE, ['off', 'running'])];
  }
  const owners = all.filter(({ positions }) => positions.some((p) => p.toLowerCase() === token.lower));
  if (bare && owners.length === 1) {
    cursor.skip(1);
    return [owners[0]!.id, owners[0]!.positions.find((p) => p.toLowerCase() === token.lower)!];
  }
  if (bare && owners.length > 1)
    throw new LineProblem(
      token.at,
      `More than one control has the position "${token.text}"`,
      `Type ${owners.map((owner) => `${owner.id} ${token.lower}`).join(' or ')}.`,
    );
  const close = controlNear(token.text, circuit);
  throw new LineProblem(
    token.at,
    `This circuit has no control "${token.text}"`,
    close === undefined ? `Controls: ${known.join(', ')}.` : `Did you mean ${close}?`,
  );
}

/** The control or controls that were meant, joined by "or": those with that word, else the nearest name. */
export function controlNear(typed: string, { controls }: LineContext['circuit']): string | undefined {
  const sharing = [...controls.keys()].filter((id) =>
    id.toLowerCase().split(' ').includes(typed.toLowerCase()),
  );
  return sharing.length > 0 ? sharing.join(' or ') : nearest(typed, [...controls.keys(), ENGINE]);
}

function takeWord(cursor: Cursor, control: string, positions: readonly string[]): string {
  const list = new Map(positions.map((position) => [position.toLowerCase(), position]));
  const direct = cursor.takeName(list);
  if (direct !== undefined) return direct;
  cursor.skipNoise(NOISE);
  const position = cursor.takeName(list);
  if (position !== undefined) return position;
  const token = cursor.peek();
  const choices = `Its positions: ${positions.join(', ')}.`;
  if (!token) throw new LineProblem(cursor.at, `The position of ${control} is missing`, choices);
  const close = nearest(token.text, positions);
  throw new LineProblem(
    token.at,
    `${control} has no position "${token.text}"`,
    close === undefined ? choices : `Did you mean ${close}? ${choices}`,
  );
}
