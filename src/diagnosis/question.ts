/** What has been solved for one question, shared by all who ask it again: a session is judged anew after each finding. */
import type { Solver } from '../network/solver.js';
import type { AppliedFault } from '../network/solver-types.js';
import type { Standpoint } from './effect.js';
import { runRepresentatives } from './effect.js';
import type { Observation } from './observe.js';
import type { Workbench } from './workbench.js';

/**
 * Questions whose predictions are kept: a session is judged anew after each finding, mostly on the findings before. One that asks more
 * finds none of them again, and takes ten times as long after each finding.
 */
const MOST_REMEMBERED = 240;

/** Band of the quantity in one relay and fuse state. */
export interface StateBand {
  readonly pulledIn: number;
  /** Fuses blown when the reading settles. */
  readonly blown: number;
  readonly low: number;
  readonly high: number;
  /** By how much the hull is wider than the widest of its corners: what a finer cut could still gain. */
  readonly gap: number;
  /** The circuit may stand so at every corner of the box. */
  readonly everywhere: boolean;
  /** Where something chatters: masks of coils that may stay pulled in meanwhile. */
  readonly staying?: readonly number[];
}

/** One relay and fuse state, and what the question answers in it. */
export interface State {
  readonly pulledIn: number;
  readonly blown: number;
  /** With every part at its nominal value. */
  readonly nominal: Band;
  /** With every part anywhere in its tolerance; worked out when asked for. */
  whole?: Band;
  /** The network may rest in it. */
  readonly rests: boolean;
  /** Where it may be one of those between which something chatters: masks of coils that may stay pulled in then; empty if not. */
  readonly staying: readonly number[];
}

/** What is known of the question under one list of faults. */
export interface Asked {
  readonly faults: readonly AppliedFault[];
  /** States in which the network can stand; those another list of the same box stands in are added as they are asked for. */
  readonly states: State[];
  /** How many of them are its own. */
  readonly own: number;
  /** A relay may chatter. */
  readonly chatters: boolean;
  /** A meter may meet either moment of a flasher. */
  readonly flashes: boolean;
  /** Whether one more fault at a site would change anything, by site; and the view from which that is judged. */
  readonly effects: Map<string, boolean>;
  standpoints?: readonly Standpoint[];
}

export interface Band {
  readonly low: number;
  readonly high: number;
}

/** What a prediction needs to know of an observation; the reading itself plays no part. */
export type Question = Pick<
  Observation,
  'added' | 'unpowered' | 'present' | 'source' | 'pinned' | 'quantity' | 'setUp'
> & {
  /** Nothing is read: only relay and fuse states matter. */
  readonly unread?: true;
};

/** What was worked out earlier on this workbench for the very same question. */
export interface QuestionMemory {
  readonly asked: Map<string, Asked>;
  readonly other: Map<string, unknown>;
  readonly representative: Int32Array;
  readonly solver: Solver;
}

export function remembered(bench: Workbench, question: Question): QuestionMemory {
  // Every hypothesis asks the same questions of a session: the long name of one is spelled out once.
  const own = asked.get(question);
  if (own !== undefined && own.bench === bench) return own.memory;
  const memory = byName(bench, question);
  asked.set(question, { bench, memory });
  return memory;
}

const asked = new WeakMap<Question, { readonly bench: Workbench; readonly memory: QuestionMemory }>();

function byName(bench: Workbench, question: Question): QuestionMemory {
  let questions = memory.get(bench);
  if (questions === undefined) memory.set(bench, (questions = new Map()));
  const { added, unpowered, present, source, pinned, quantity, setUp, unread } = question;
  const place = [...setUp.fitted].sort();
  const key = JSON.stringify([
    added,
    unpowered?.length,
    present.join(''),
    source,
    pinned,
    unread ?? quantity,
    place,
  ]);
  const known = questions.get(key);
  if (known !== undefined) {
    questions.delete(key);
    questions.set(key, known);
    return known;
  }
  if (questions.size >= MOST_REMEMBERED) questions.delete(questions.keys().next().value!);
  const attached = [...added, ...(unpowered ?? [])].flatMap(({ a, b }) => [a, b]);
  const read = [quantity.a, quantity.b, quantity.minus?.a, quantity.minus?.b].filter(
    (node): node is number => node !== undefined,
  );
  const fresh: QuestionMemory = {
    asked: new Map(),
    other: new Map(),
    representative: runRepresentatives(bench.network, present, [...attached, ...read]),
    solver: bench.solver(added),
  };
  questions.set(key, fresh);
  return fresh;
}

const memory = new WeakMap<Workbench, Map<string, QuestionMemory>>();

export function faultKey(faults: readonly AppliedFault[]): string {
  let key = '';
  for (const fault of faults) {
    key += siteKey(fault);
    if (fault.kind === 'law') key += JSON.stringify(fault.law);
    else if ('ohms' in fault) key += fault.ohms;
    key += ';';
  }
  return key;
}

/** Where a fault acts and how, without its severity. */
export function siteKey(fault: AppliedFault): string {
  switch (fault.kind) {
    case 'series':
      return `s${fault.element}:`;
    case 'shunt':
      return `g${fault.node}:`;
    case 'bridge':
      return `b${fault.a}-${fault.b}:`;
    case 'crossed':
      return `x${fault.first}-${fault.second}:`;
    case 'stuck':
      return `c${fault.element}${fault.closed}:`;
    case 'law':
      return `l${fault.element}:`;
    case 'rehung':
      return `h${fault.element}-${fault.a}-${fault.b}:`;
  }
}
