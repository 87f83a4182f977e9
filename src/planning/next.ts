/**
 * What to test next: for every test there is, how much it is expected to tell about which repair is needed, per minute.
 * One step ahead. Among near equals the test that disturbs nothing.
 */
import type { Diagnosis, Suspect } from '../diagnosis/diagnosis-types.js';
import { standingOf } from '../diagnosis/evidence.js';
import { probe } from '../diagnosis/observe.js';
import type { Fault } from '../diagnosis/faults.js';
import type { Workbench } from '../diagnosis/workbench.js';
import { sourceElement } from '../network/conditions.js';
import { ohmmeterReads } from '../network/meters.js';
import type { AppliedFault, Outcome } from '../network/solver-types.js';
import type { Case } from '../session/case.js';
import type { SetUp } from '../session/setup.js';
import type { Candidate } from './candidates.js';
import { candidates } from './candidates.js';
import { cautionsFor } from './cautions.js';
import type { Suggestion } from './suggestion.js';

/** A reading falls in one of these classes; edges as shares of the battery's volts, in ohms, or as shares of rated volts. */
const VOLT_EDGES = [0.015, 0.06, 0.15, 0.35, 0.6, 0.8, 0.9, 0.965] as const;
const OHM_EDGES = [2, 15, 100, 10_000] as const;
const SIGHT_EDGES = [0.3, 0.58] as const;
/** Suspects beyond this share of the weight do not steer the choice. */
const ENOUGH_WEIGHT = 0.995;
/** Disturbing something costs evidence: as if the test took this much longer. */
const DISTURBANCE = 1.15;
const MOST_SUGGESTIONS = 5;
/** Bits about the repair below which a test is not worth a minute. */
const LEAST_GAIN = 0.05;
/** Outcomes less likely than this are not spelled out. */
const RARE = 0.01;

interface Likely {
  readonly group: number;
  /** Short name of what would be at fault: a part, or a contact of one. */
  readonly name: string;
  readonly weight: number;
  readonly faults: readonly AppliedFault[];
}

interface Rated {
  readonly candidate: Candidate;
  readonly gain: number;
  readonly value: number;
  readonly classes: ReadonlyMap<number, readonly { readonly likely: Likely; readonly quantity: number }[]>;
}

/** Tests worth doing, best first; none when one repair is left or nothing has been said to fail. */
export function suggest(bench: Workbench, session: Case, diagnosis: Diagnosis): Suggestion[] {
  if (!diagnosis.abnormal || diagnosis.groups.length < 2) return [];
  const likely = likelyFaults(bench, diagnosis);
  const before = entropy(groupWeights(likely));
  const solved = new Map<string, Outcome[]>();
  const rated = candidates(bench, session).flatMap((candidate): Rated[] => {
    const classes = outcomeClasses(bench, candidate, likely, solved);
    const gain = before - remaining(classes, likely);
    if (gain < LEAST_GAIN) return [];
    return [
      {
        candidate,
        gain,
        value: gain / (candidate.minutes * (candidate.disturbs ? DISTURBANCE : 1)),
        classes,
      },
    ];
  });
  rated.sort((a, b) => b.value - a.value || (a.candidate.words < b.candidate.words ? -1 : 1));
  return distinct(rated)
    .slice(0, MOST_SUGGESTIONS)
    .map((choice) => toSuggestion(bench, session, choice));
}

/** Two points on one node tell the same: the first stands for both. */
function distinct(rated: readonly Rated[]): Rated[] {
  const seen = new Set<string>();
  return rated.filter(({ candidate, gain }) => {
    const key = `${candidate.reading.kind} ${gain.toFixed(6)} ${candidate.minutes}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** Each suspect at a low, middle and high severity of what still fits, with its share. */
function likelyFaults(bench: Workbench, diagnosis: Diagnosis): Likely[] {
  const byId = new Map(bench.faults.map((fault) => [fault.id, fault]));
  const list: Likely[] = [];
  let covered = 0;
  const ranked = diagnosis.groups.flatMap((group, g) => group.suspects.map((suspect) => ({ suspect, g })));
  ranked.sort((a, b) => b.suspect.share - a.suspect.share);
  for (const { suspect, g } of ranked) {
    if (covered > ENOUGH_WEIGHT) break;
    covered += suspect.share;
    const versions = severities(suspect).map((severity) =>
      suspect.faults.map((entry, i): AppliedFault => {
        const fault: Fault = byId.get(entry.id)!;
        return fault.apply(i === 0 && severity !== undefined ? severity : middle(fault));
      }),
    );
    for (const faults of versions) {
      list.push({
        group: g,
        name: suspect.faults.map((entry) => shortName(bench, byId.get(entry.id)!)).join(' + '),
        weight: suspect.share / versions.length,
        faults,
      });
    }
  }
  return list;
}

function shortName(bench: Workbench, fault: Fault): string {
  const type = bench.circuit.parts.get(fault.part)?.type;
  const whole =
    fault.owner !== 'position' ||
    type === 'connector' ||
    type === 'ground' ||
    type === 'splice' ||
    type === 'battery';
  return whole ? fault.part : `contact ${fault.site}`;
}

function severities(suspect: Suspect): (number | undefined)[] {
  if (suspect.severity === undefined) return [undefined];
  const { unit, low, high } = suspect.severity;
  if (unit === 'V') return [low, (low + high) / 2];
  const top = Math.min(high, 1e8);
  return [low, Math.sqrt(low * top), top];
}

function middle(fault: Fault): number {
  const { edges } = fault.scale;
  return edges[edges.length >> 1]!;
}

/** Which class of reading each likely fault would give. */
function outcomeClasses(
  bench: Workbench,
  candidate: Candidate,
  likely: readonly Likely[],
  solved: Map<string, Outcome[]>,
): Rated['classes'] {
  const { reading, setUp } = candidate;
  const asked = probe(bench, setUp, reading)!;
  const plain = standingOf(bench, setUp);
  // A 10 MΩ meter changes nothing that matters for the choice; without it one solve serves every point.
  const added = reading.kind === 'volts' ? plain.added : asked.added;
  const key = JSON.stringify([
    [...setUp.controls],
    [...setUp.out],
    [...setUp.unplugged],
    setUp.jumpers,
    reading.kind === 'volts' || reading.kind === 'load' ? '' : candidate.line,
  ]);
  let outcomes = solved.get(key);
  if (outcomes === undefined) {
    const solver = bench.solver(added);
    const source = sourceElement(bench.network);
    outcomes = likely.map(({ faults }) => {
      const own = faults.some((fault) => fault.kind === 'law' && fault.element === source);
      const list = own ? faults : [{ kind: 'law', element: source, law: plain.source } as const, ...faults];
      return solver.solve({ present: asked.present, faults: list, blown: 0 }).at(-1)!;
    });
    solved.set(key, outcomes);
  }
  const classes = new Map<number, { likely: Likely; quantity: number }[]>();
  likely.forEach((entry, i) => {
    const { volts } = outcomes[i]!;
    const across = volts[asked.quantity.a]! - volts[asked.quantity.b]!;
    const battery = Math.max(1, volts[bench.network.points.get('bat+')!]!);
    const [quantity, share, edges] =
      reading.kind === 'ohms'
        ? [ohmmeterReads(across), ohmmeterReads(across), OHM_EDGES]
        : reading.kind === 'load'
          ? [Math.abs(across) / asked.quantity.scale, Math.abs(across) / asked.quantity.scale, SIGHT_EDGES]
          : [across, across / battery, VOLT_EDGES];
    const at = (edges as readonly number[]).filter((edge) => share > edge).length;
    const members = classes.get(at);
    if (members === undefined) classes.set(at, [{ likely: entry, quantity }]);
    else members.push({ likely: entry, quantity });
  });
  return classes;
}

function groupWeights(likely: readonly Likely[]): number[] {
  const weights: number[] = [];
  for (const { group, weight } of likely) weights[group] = (weights[group] ?? 0) + weight;
  return weights.filter((weight) => weight !== undefined);
}

function entropy(weights: readonly number[]): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.reduce(
    (sum, weight) => (weight <= 0 ? sum : sum - (weight / total) * Math.log2(weight / total)),
    0,
  );
}

/** Expected entropy over repairs after the reading is known. */
function remaining(classes: Rated['classes'], likely: readonly Likely[]): number {
  const total = likely.reduce((sum, entry) => sum + entry.weight, 0);
  let sum = 0;
  for (const members of classes.values()) {
    const list = members.map((member) => member.likely);
    sum += (list.reduce((part, entry) => part + entry.weight, 0) / total) * entropy(groupWeights(list));
  }
  return sum;
}

function toSuggestion(bench: Workbench, session: Case, { candidate, classes }: Rated): Suggestion {
  const { reading } = candidate;
  const total = [...classes.values()].flat().reduce((sum, { likely }) => sum + likely.weight, 0);
  const outcomes = mergeAlike([...classes].sort(([a], [b]) => a - b).map(([, members]) => members))
    .map((members) => ({
      when: whenWords(
        bench,
        candidate,
        members.map((member) => member.quantity),
      ),
      means: meansWords(members.map((member) => member.likely)),
      chance: members.reduce((sum, { likely }) => sum + likely.weight, 0) / total,
    }))
    .filter((outcome) => outcome.chance >= RARE);
  const event = { type: 'found', reading } as const;
  return {
    line: candidate.line,
    first: changes(session.now, candidate.setUp),
    words: candidate.words,
    minutes: candidate.minutes,
    expects: reading.kind === 'volts' ? 'volts' : reading.kind === 'ohms' ? 'ohms' : 'sight',
    outcomes,
    cautions: cautionsFor(bench.circuit, candidate.setUp, event, { timeline: session.timeline }),
  };
}

type Member = { readonly likely: Likely; readonly quantity: number };

/** Neighbouring classes that leave the same names, or all but, are one outcome. */
function mergeAlike(classes: readonly (readonly Member[])[]): Member[][] {
  const merged: Member[][] = [];
  for (const members of classes) {
    const last = merged.at(-1);
    if (
      last !== undefined &&
      meansWords(last.map((m) => m.likely)) === meansWords(members.map((m) => m.likely))
    )
      last.push(...members);
    else merged.push([...members]);
  }
  return merged;
}

function whenWords(bench: Workbench, candidate: Candidate, values: readonly number[]): string {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const { reading } = candidate;
  if (reading.kind === 'ohms' && low < 1e3 && high > 1e5) return `${low.toFixed(1)} ohm up to OL`;
  if (reading.kind === 'load') {
    const { kind } = bench.network.loads.get(reading.load)!;
    const words = {
      lamp: ['off', 'dim', 'lit'],
      horn: ['silent', 'weak', 'sounds'],
      motor: ['stopped', 'slow', 'runs'],
      relay: ['silent', 'silent or clicks', 'clicks'],
    }[kind];
    return words[SIGHT_EDGES.filter((edge) => (low + high) / 2 > edge).length]!;
  }
  const unit = reading.kind === 'ohms' ? 'ohm' : 'V';
  if (unit === 'ohm' && low > 10_000) return 'OL';
  const round = (value: number) =>
    (Math.abs(value) < 100 ? value.toFixed(1) : value.toFixed(0)).replace(/^-0\.0$/, '0.0');
  const [from, to] = [round(low), round(Math.min(high, 1e5))];
  return from === to ? `about ${from} ${unit}` : `${from} to ${to} ${unit}`;
}

function meansWords(members: readonly Likely[]): string {
  const parts = new Map<string, number>();
  for (const { name, weight } of members) parts.set(name, (parts.get(name) ?? 0) + weight);
  const ranked = [...parts].sort((a, b) => b[1] - a[1]).map(([part]) => part);
  const shown = ranked.slice(0, 6).join(', ');
  const more = ranked.length > 6 ? ` and ${ranked.length - 6} more` : '';
  return `leaves ${shown}${more}`;
}

/** Lines that lead from one set-up to another. */
function changes(from: SetUp, to: SetUp): string[] {
  const lines: string[] = [];
  for (const ends of from.jumpers)
    if (!to.jumpers.some((other) => other.join() === ends.join())) lines.push(`unjumper ${ends.join(' ')}`);
  for (const id of from.unplugged) if (!to.unplugged.has(id)) lines.push(`plug ${id}`);
  for (const id of from.out) if (!to.out.has(id)) lines.push(`in ${id}`);
  for (const [control, position] of to.controls)
    if (from.controls.get(control) !== position) lines.push(`${control} ${position}`);
  for (const id of to.unplugged) if (!from.unplugged.has(id)) lines.push(`unplug ${id}`);
  for (const id of to.out) if (!from.out.has(id)) lines.push(`out ${id}`);
  for (const ends of to.jumpers)
    if (!from.jumpers.some((other) => other.join() === ends.join())) lines.push(`jumper ${ends.join(' ')}`);
  return lines;
}
