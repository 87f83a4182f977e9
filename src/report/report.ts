/** Repair reports: one set of data, three forms. */
import type { Report } from './report-data.js';
import { reportMarkdown } from './markdown.js';
import { reportText } from './text.js';

export { buildReport, type ReportInput } from './build-report.js';
export type { Report } from './report-data.js';

export type ReportForm = 'text' | 'markdown' | 'json';

/** The report as it is printed or saved; JSON holds `schema` and `kind` first. */
export function printReport(
  report: Report,
  form: ReportForm,
  options: { readonly ascii?: boolean } = {},
): string {
  switch (form) {
    case 'text':
      return reportText(report, options);
    case 'markdown':
      return reportMarkdown(report, options);
    case 'json':
      return `${JSON.stringify(report, null, 2)}\n`;
  }
}
