/** Acts that a teacher would stop: what each would have done, shown to the student and noted for the marks. */
import type { CautionId } from '../planning/caution-texts.js';

export interface Unsafe {
  readonly id: CautionId | 'fuse-again';
  /** What it does, or would have done, in a sentence. */
  readonly words: string;
  /** A danger to people or vehicle; the others spoil a meter or a fuse. */
  readonly grave: boolean;
}

/** Common practice, no source; the reasons stand with the cautions (src/planning/caution-texts.ts). */
const ACTS: Partial<Record<CautionId, Omit<Unsafe, 'id'>>> = {
  'jumper-short': { words: 'the jumper joins a feed to ground: a dead short', grave: true },
  'jumper-module-output': {
    words: 'the jumper would work against a module output and can destroy it: the vehicle is spared it',
    grave: true,
  },
  'jumper-module': { words: 'a jumper on a line of a module that is plugged may harm it', grave: true },
  'jumper-cranks': { words: 'the jumper can crank the engine with nobody at the key', grave: true },
  'airbag-line': {
    words: 'an airbag or belt-tensioner line: it may fire; the vehicle is spared it',
    grave: true,
  },
  'never-probe': { words: 'the drawing says never to probe here: the reading is not taken', grave: true },
  'high-voltage': { words: 'over 60 V: the reading is not taken', grave: true },
  'test-lamp-module': {
    words: 'a filament test lamp on a line of a module can draw more than it can give',
    grave: false,
  },
  'ohms-live': {
    words: 'ohms on a live line: the display runs about, the figure is nonsense, and the meter may suffer',
    grave: false,
  },
};

/** Not carried out on the simulated vehicle. */
export const SPARED: ReadonlySet<CautionId> = new Set<CautionId>([
  'jumper-module-output',
  'airbag-line',
  'never-probe',
  'high-voltage',
]);

export function unsafeOf(ids: readonly CautionId[]): Unsafe | undefined {
  for (const [id, act] of Object.entries(ACTS))
    if (ids.includes(id as CautionId)) return { id: id as CautionId, ...act };
  return undefined;
}

export const FUSE_AGAIN: Unsafe = {
  id: 'fuse-again',
  words: 'another fuse is sent into the same short',
  grave: false,
};

/** Never among an unsafe act's own cautions: whether a line is live is settled by the vehicle, not by the drawing. */
export const LIVE_LINE: Unsafe = { id: 'ohms-live', ...ACTS['ohms-live']! };
