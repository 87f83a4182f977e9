/** The help page of the prompt, from the grammar's own table. */
import { HELP } from '../../session/parse-line.js';
import { paragraph } from './page.js';

export function showHelp(): readonly string[] {
  return [
    ...HELP.flatMap(([heading, lines]) => [
      `${heading}:`,
      ...lines.map(([usage, meaning]) =>
        usage.length > 34
          ? `  ${usage}\n${paragraph(meaning, ' '.repeat(38))}`
          : paragraph(meaning, `  ${usage.padEnd(34)}  `),
      ),
    ]),
    'To the suggested test: the reading alone, or: cannot tell, cannot reach, no tool.',
    'A test with ? behind it (volts X3.1h ?): what it would bring; nothing is recorded.',
    'When the cause is found: cause (alone) leads through repair, repeat and report.',
  ];
}
