/** The report on paper: plain text, 80 columns, no colour. */
import { visible } from '../circuit/visible.js';
import { toAscii, wrap } from './layout.js';
import type { Report, ReportStep } from './report-data.js';
import { sectionsOf, type Line } from './sections.js';

const WIDTH = 80;

/** @param ascii fold every character a plain printer does not know */
export function reportText(report: Report, { ascii = false } = {}): string {
  const lines: string[] = ['REPAIR REPORT', ...wrap(visible(report.circuit.title), WIDTH), '='.repeat(WIDTH)];
  for (const { title, body } of sectionsOf(report)) {
    lines.push('', title.toUpperCase(), ...body.flatMap((line) => textLine(line)));
  }
  lines.push('', ...signatures(), '', '-'.repeat(WIDTH), ...wrap(footer(report), WIDTH));
  const text = `${lines.join('\n')}\n`;
  return ascii ? toAscii(text) : text;
}

/** What identifies the record: program version, session, circuit. */
export function footer(report: Report): string {
  return `${report.program}; session ${report.sessionHash || 'without hash'}; circuit ${visible(report.circuit.id)} ${report.circuit.hash.slice(0, 16)}`;
}

function signatures(): readonly string[] {
  const line = '_'.repeat(34);
  return ['SIGNATURES', '', `  Technician ${line}`, '', `  Customer   ${line}`];
}

function textLine(line: Line): readonly string[] {
  switch (line.kind) {
    case 'text':
      return wrap(visible(line.text), WIDTH, '  ');
    case 'item':
      return wrap(visible(line.text), WIDTH, '  - ', '    ');
    case 'field':
      return wrap(visible(line.text), WIDTH, `  ${`${line.label}:`.padEnd(13)} `, ' '.repeat(16));
    case 'step':
      return stepLines(line.step);
  }
}

function stepLines(step: ReportStep): readonly string[] {
  const indent = ' '.repeat(15);
  const head = `${String(step.number).padStart(5)}  ${(step.time || '--:--').padEnd(5)}  `;
  if (step.kind === 'done') return wrap(`done: ${visible(step.words)}`, WIDTH, head, indent);
  return [
    ...wrap(`${step.kind}: ${visible(step.words)}`, WIDTH, head, indent),
    ...wrap(`with: ${visible(step.conditions)}`, WIDTH, indent, `${indent}  `),
    ...(step.proved === '' ? [] : wrap(`proved: ${visible(step.proved)}`, WIDTH, indent, `${indent}  `)),
  ];
}
