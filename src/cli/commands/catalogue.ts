/** `catalogue`: what may stand behind `catalogue:` in a circuit file, with the values it gives; and sizes of fuses and wires. */
import { CATALOGUE } from '../../circuit/catalogue.js';
import type { CatalogueEntry, CatalogueKeys } from '../../circuit/catalogue-entry.js';
import { BLADE_FUSES, WIRE_SIZES } from '../../circuit/catalogue-sizes.js';
import type { CommandResult, Context } from '../context.js';
import { Failure } from '../failure.js';
import { STATUS } from '../io.js';

interface Row {
  readonly type: string;
  readonly id: string;
  readonly volts: number | undefined;
  readonly values: string;
  readonly words: string;
  readonly source: string;
  readonly demo: boolean;
}

export function catalogue(
  { output }: Context,
  words: readonly string[],
  { json = false }: { json?: boolean },
): CommandResult {
  const wanted = words.flatMap((word) => word.toLowerCase().split(/\s+/));
  const rows = [...CATALOGUE.flatMap(rowsOf), ...fuses(), ...wires()].filter((row) =>
    wanted.every((word) => wordsOf(row).includes(word)),
  );
  if (rows.length === 0)
    return Promise.reject(
      new Failure(
        `the catalogue has nothing with "${words.join(' ')}"`,
        'Try fewer words, such as: lamp 24 V.',
      ),
    );
  if (json) output.json('catalogue', { entries: rows });
  else for (const type of new Set(rows.map((row) => row.type))) group(output, type, rows);
  return Promise.resolve(STATUS.ok);
}

function group(output: Context['output'], type: string, rows: readonly Row[]): void {
  output.result(type);
  const own = rows.filter((row) => row.type === type);
  const width = (of: (row: Row) => string) => Math.max(...own.map((row) => of(row).length));
  const [ids, values] = [width(({ id }) => id), width((row) => row.values)];
  for (const row of own)
    output.result(
      `  ${row.id.padEnd(ids)}  ${row.values.padEnd(values)}  ${row.words}${row.demo ? ' (demo)' : ''}`,
    );
}

function wordsOf({ type, id, volts, words, values }: Row): string[] {
  return [type, id, `${volts ?? ''} v`, words, values]
    .join(' ')
    .toLowerCase()
    .split(/[\s,:]+/);
}

function rowsOf({ id, type, words, source, demo, made }: CatalogueEntry): Row[] {
  return [...made].map(([volts, keys]) => {
    const values = `${volts} V: ${valuesOf(keys)}`;
    return { type, id, volts, values, words, source, demo };
  });
}

function valuesOf({ volts: _volts, drives: _drives, ...keys }: CatalogueKeys): string {
  return Object.entries(keys)
    .map(([key, value]) => {
      if (key === 'change-over') return '';
      if (typeof value === 'object')
        return Object.entries(value)
          .map(([terminal, watts]) => `${terminal} ${watts}`)
          .join(' / ');
      return key === 'watts' || key === 'amps' ? value : `${key} ${value}`;
    })
    .filter((words) => words !== '')
    .join(', ');
}

function fuses(): Row[] {
  return BLADE_FUSES.map(({ amps, colour }) => ({
    type: 'blade fuse',
    id: `${amps} A`,
    volts: undefined,
    values: colour,
    words: `rating: ${amps} A`,
    source: 'ISO 8820-3, colours from memory',
    demo: false,
  }));
}

function wires(): Row[] {
  return WIRE_SIZES.map(({ mm2, mostOhmsPerMetre, usualFuse }) => ({
    type: 'wire',
    id: `${mm2} mm2`,
    volts: undefined,
    values: `at most ${(1000 * mostOhmsPerMetre).toPrecision(3)} mohm/m`,
    words: `usual fuse up to ${usualFuse} A`,
    source: 'ISO 6722-1, from memory; fuse: common practice, no source',
    demo: false,
  }));
}
