/** A fault-finding tree as a numbered sheet: each test once, each answer with the number to go to or with what is to be mended. */
import type { Circuit } from '../circuit/circuit.js';
import type { TreeLeaf, TreeNode, TreeTest } from '../planning/tree-types.js';
import { repairMinutes } from '../planning/costs-of.js';
import { RARE } from '../planning/tree-step.js';
import { describeAction } from '../session/describe.js';
import type { Action } from '../session/events.js';
import { LeafWords, NAMED } from './tree-leaf.js';

export interface TreeSheet {
  readonly circuit: string;
  readonly title: string;
  /** What was found wrong, in words. */
  readonly concern: readonly string[];
  /** Expected minutes of testing, repair not counted. */
  readonly minutes: number;
  /** Expected minutes of the repair, the price of its parts counted as work at the labour rate. */
  readonly mending: number;
  /** Where the tree ends at once. */
  readonly end: string | undefined;
  readonly steps: readonly SheetStep[];
  readonly cautions: readonly { readonly letter: string; readonly text: string }[];
}

export interface SheetStep {
  readonly number: number;
  /** "pedal down; look at H2 (right stop lamp)". */
  readonly words: string;
  readonly minutes: number;
  /** Minutes of testing to be expected from here on, this test included. */
  readonly expected: number;
  /** Letters of its cautions. */
  readonly cautions: readonly string[];
  readonly answers: readonly SheetAnswer[];
}

export interface SheetAnswer {
  readonly when: string;
  /** Of all faults that may be behind the concern, 0 to 1. */
  readonly share: number;
  /** Number of the next step, or what is at fault. */
  readonly then: number | string;
}

export const FUSE_CAUTION =
  'A blown fuse is a symptom: find what blew it before another one goes in, and never fit a larger one.';

export function treeSheet(circuit: Circuit, concern: readonly string[], tree: TreeNode): TreeSheet {
  const letters = new Map<string, string>();
  const letterOf = (text: string): string => {
    const letter = letters.get(text) ?? String.fromCharCode(97 + letters.size);
    letters.set(text, letter);
    return letter;
  };
  const leaves = new LeafWords(circuit);
  const leafWords = (leaf: TreeLeaf): string =>
    leaves.of(leaf) + (namesFuse(circuit, leaf) ? ` [${letterOf(FUSE_CAUTION)}]` : '');
  const tests = numbered(tree);
  const steps = tests.map(({ node: { test, branches, minutes }, share }, i): SheetStep => {
    const first = test.actions.filter((action) => !isSaid(action, test.words));
    return {
      number: i + 1,
      words: leaves.shorten(
        [...first.map((action) => describeAction(circuit, action)), toNegative(test.words)].join('; '),
      ),
      minutes: test.minutes,
      expected: minutes,
      cautions: test.cautions.map(({ text, stop }) => letterOf(stop ? `STOP: ${text}` : text)),
      answers: branches.flatMap(({ when, share: part, node }): SheetAnswer[] => {
        const own = share * part;
        if (node.kind === 'test')
          return [{ when, share: own, then: tests.findIndex((other) => other.node === node) + 1 }];
        if (node.end === 'not followed' && own < RARE) return [];
        return [{ when, share: own, then: leafWords(node) }];
      }),
    };
  });
  return {
    circuit: circuit.id,
    title: circuit.title,
    concern,
    minutes: tree.kind === 'test' ? tree.minutes : 0,
    mending: mendingMinutes(circuit, tree),
    end: tree.kind === 'leaf' ? leafWords(tree) : undefined,
    steps,
    cautions: [...letters].map(([text, letter]) => ({ letter, text })),
  };
}

/** "volts at H1.1": the black lead stays on battery negative, which the head of the sheet says once. */
function toNegative(words: string): string {
  return words.replace(/^volts, red (.*), black battery negative$/, 'volts at $1');
}

/** Over all faults, each at its own repair; what is not in this drawing counts nothing. */
function mendingMinutes(circuit: Circuit, node: TreeNode): number {
  return node.kind === 'leaf'
    ? node.repairs.reduce((sum, repair) => sum + repair.share * repairMinutes(circuit, repair), 0)
    : node.branches.reduce((sum, branch) => sum + branch.share * mendingMinutes(circuit, branch.node), 0);
}

/** Tests in the order in which they are told: each before what follows from it, the first answer first. */
function numbered(node: TreeNode, share = 1): { readonly node: TreeTest; readonly share: number }[] {
  if (node.kind === 'leaf') return [];
  return [{ node, share }, ...node.branches.flatMap((branch) => numbered(branch.node, share * branch.share))];
}

function namesFuse(circuit: Circuit, { end, repairs }: TreeLeaf): boolean {
  const [leader] = repairs;
  if (leader === undefined || end === 'not in this drawing') return false;
  return repairs.some(
    ({ part, how, share }) =>
      share >= NAMED && how.startsWith('replace') && circuit.parts.get(part)?.type === 'fuse',
  );
}

/** Words of a test often say already what to take out or unplug for it. */
function isSaid(action: Action, words: string): boolean {
  if (action.do === 'take out')
    return words.includes(`take ${action.part} `) || words.includes(`${action.part} out`);
  return action.do === 'unplug' && words.includes(`${action.connector} unplugged`);
}

/** Minutes for a person: "7 min", "0.4 min". */
export function minutesWords(minutes: number): string {
  return `${short(minutes)} min`;
}

/** Minutes of the test out of those to be expected from there on: "1.4 of 8.9 min"; "1.4 min" where none follow. */
export function ofMinutes({ minutes, expected }: Pick<SheetStep, 'minutes' | 'expected'>): string {
  return short(minutes) === short(expected)
    ? minutesWords(minutes)
    : `${short(minutes)} of ${minutesWords(expected)}`;
}

function short(minutes: number): string {
  return String(Number(minutes.toPrecision(2)));
}

/** "6.5 min of testing and 24 min of mending are to be expected." */
export function expectedWords({ minutes, mending }: Pick<TreeSheet, 'minutes' | 'mending'>): string {
  return `${minutesWords(minutes)} of testing and ${minutesWords(mending)} of mending are to be expected, parts counted as work at the labour rate.`;
}

/** What a reader must know before the first step. */
export const HOW_TO_READ =
  "Begin at 1 and go where the answer leads. Shares are of all faults behind the concern (under 1 %: left out); minutes are those of the test, of all that are to be expected from there. A figure between two answers belongs to the nearer one. Volts at one point are against battery negative. Before a zero counts, show on a live point that the meter works. What no answer fits is not in this drawing. The maker's procedure goes first.";
