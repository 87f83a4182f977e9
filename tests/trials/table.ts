/** The results of trials as tables: a row for each circuit and kind of session. */
import type { Result } from './trials.js';
import type { Score } from './score.js';

/** Circuits the program was tuned on; the others were left alone until the end. */
const TUNED = new Set(['reversing-lamps', 'stop-tail', 'work-lamps', 'trailer', 'radiator-fan', 'starter']);

export function tables(results: readonly Result[]): string {
  const scores = results.flatMap((result) => result.score ?? []);
  const plain = scores.filter(({ kind }) => kind === 'single' || kind === 'double');
  const tuned = plain.filter(({ circuit }) => TUNED.has(circuit));
  const untuned = plain.filter(({ circuit }) => !TUNED.has(circuit));
  return [
    section('Circuits tuned on', tuned),
    section('Circuits not tuned on', untuned),
    section('Sessions with 10 % misreads', of(scores, 'misread')),
    outside(of(scores, 'outside')),
    times(scores),
    `${results.filter(({ error }) => error !== undefined).length} sessions broke down; ${sum(results.map(({ silent }) => silent))} vehicles showed nothing and were drawn again. ngspice solved ${sum(results.map(({ networks }) => networks?.solved ?? 0))} networks; for ${sum(results.map(({ networks }) => networks?.stoodIn ?? 0))} it found no operating point and our solver stood in. ${sum(scores.map(({ dangers }) => dangers.length))} suggestions were on the list of dangers.`,
  ].join('\n\n');
}

function of(scores: readonly Score[], kind: Score['kind']): Score[] {
  return scores.filter((score) => score.kind === kind);
}

const HEAD = [
  ['circuit', 'faults', 'sessions', 'kept', 'group', 'repair', 'confirmed', 'wrongly', 'range', 'width'],
  ['left', 'removed', 'tests', 'minutes', 'solved', 'nothing done: group', 'left'],
].flat();

function section(title: string, scores: readonly Score[]): string {
  const rows: string[][] = [];
  for (const circuit of [...new Set(scores.map((score) => score.circuit))].sort()) {
    const own = scores.filter((score) => score.circuit === circuit);
    for (const kind of ['single', 'double', 'misread'] as const)
      if (of(own, kind).length > 0) rows.push(row(circuit, kind, of(own, kind)));
  }
  for (const kind of ['single', 'double', 'misread'] as const)
    if (of(scores, kind).length > 0) rows.push(row('all', kind, of(scores, kind)));
  return table(title, HEAD, rows);
}

function row(circuit: string, kind: string, scores: readonly Score[]): string[] {
  const ranges = scores.flatMap((score) => score.ranges);
  const widths = ranges.filter(({ ohms }) => ohms).map(({ width }) => width);
  const removed = sum(scores.map((score) => score.suspectsFirst - score.suspectsLast));
  return [
    circuit,
    kind,
    String(scores.length),
    share(scores, (score) => score.kept),
    share(scores, (score) => score.inGroup),
    share(scores, (score) => score.inRepair),
    share(scores, (score) => score.confirmed === 'right'),
    String(scores.filter((score) => score.confirmed === 'wrong').length),
    share(ranges, ({ holds }) => holds),
    median(widths).toPrecision(2),
    mean(scores.map((score) => score.suspectsLast)).toFixed(1),
    (removed / Math.max(1, sum(scores.map((score) => score.findings)))).toFixed(1),
    mean(scores.map((score) => score.findings)).toFixed(1),
    mean(scores.map((score) => score.minutes)).toFixed(1),
    share(scores, (score) => score.solved),
    share(scores, (score) => score.baselineInGroup),
    mean(scores.map((score) => score.suspectsFirst)).toFixed(1),
  ];
}

/** Vehicles that differ from the drawing: the right answer is that they do. */
function outside(scores: readonly Score[]): string {
  const head = [
    ...[
      'circuit',
      'sessions',
      'does not fit, or open leads',
      'names the altered place',
      'other suspects left',
    ],
    ...['wrongly confirmed', 'tests'],
  ];
  const lines = (name: string, own: readonly Score[]) => [
    name,
    String(own.length),
    share(own, (score) => score.openLeads),
    share(own, (score) => !score.openLeads && score.named),
    share(own, (score) => !score.openLeads && !score.named),
    String(own.filter((score) => score.confirmed === 'wrong').length),
    mean(own.map((score) => score.findings)).toFixed(1),
  ];
  const circuits = [...new Set(scores.map((score) => score.circuit))].sort();
  const rows = circuits.map((circuit) =>
    lines(
      circuit,
      scores.filter((score) => score.circuit === circuit),
    ),
  );
  return table('Vehicles that differ from the drawing', head, [...rows, lines('all', scores)]);
}

function times(scores: readonly Score[]): string {
  const rows = (['diagnose', 'suggest', 'car', 'groups'] as const).map((part) => [
    part,
    (mean(scores.map((score) => score.spent[part])) / 1000).toFixed(2),
    (Math.max(0, ...scores.map((score) => score.spent[part])) / 1000).toFixed(2),
  ]);
  return table('Seconds a session', ['part', 'mean', 'most'], rows);
}

function table(title: string, head: readonly string[], rows: readonly (readonly string[])[]): string {
  const all = [head, ...rows];
  const widths = head.map((_, i) => Math.max(...all.map((line) => line[i]!.length)));
  const lines = all.map((line) => `| ${line.map((cell, i) => cell.padEnd(widths[i]!)).join(' | ')} |`);
  const rule = `| ${widths.map((width) => '-'.repeat(width)).join(' | ')} |`;
  return [title, '', lines[0], rule, ...lines.slice(1)].join('\n');
}

function share<T>(list: readonly T[], holds: (entry: T) => boolean): string {
  return list.length === 0 ? '-' : `${((100 * list.filter(holds).length) / list.length).toFixed(1)} %`;
}

function sum(list: readonly number[]): number {
  return list.reduce((total, value) => total + value, 0);
}

function mean(list: readonly number[]): number {
  return list.length === 0 ? 0 : sum(list) / list.length;
}

function median(list: readonly number[]): number {
  if (list.length === 0) return NaN;
  const sorted = [...list].sort((a, b) => a - b);
  return sorted[sorted.length >> 1]!;
}
