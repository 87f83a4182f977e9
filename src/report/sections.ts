/** The report's sections and their lines, in the order in which they are read; the text and Markdown forms share them. */
import { percent } from './layout.js';
import { NOTABLE } from './soft-words.js';
import type { Cause, Report, ReportStep } from './report-data.js';

export type Line =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'item'; readonly text: string }
  | { readonly kind: 'field'; readonly label: string; readonly text: string }
  | { readonly kind: 'step'; readonly step: ReportStep };

export interface Section {
  readonly title: string;
  readonly body: readonly Line[];
}

export function sectionsOf(report: Report): readonly Section[] {
  const sections: Section[] = [
    { title: 'For the customer', body: [text(report.customer)] },
    { title: 'Concern', body: [text(report.concern)] },
    { title: `Cause (${CERTAINTY[report.cause.certainty]})`, body: causeLines(report.cause) },
    { title: 'Correction', body: items(report.correction, 'none recorded') },
    { title: 'Verification', body: [text(report.verification.words)] },
    {
      title: 'Vehicle',
      body: report.vehicle.map(([label, value]) => ({ kind: 'field', label, text: value })),
    },
    { title: 'History asked', body: items(report.history, 'nothing recorded') },
    { title: 'As found', body: items(report.asFound, 'no failed condition recorded') },
    { title: 'As left', body: items(report.asLeft, 'not recorded') },
    { title: 'Instrument', body: items(report.instrument, 'not recorded') },
    {
      title: 'Findings and work, in the order in which they happened',
      body: [
        text('Values here were measured, seen or told, as each line says; none is calculated.'),
        ...report.steps.map((step): Line => ({ kind: 'step', step })),
      ],
    },
    { title: 'Ruled out by readings', body: ruledOutLines(report) },
    { title: 'Ruled out without a test at the part', body: items(report.clearedUntested, 'none') },
    {
      title: 'Assumed good, not tested',
      body: [...items(report.assumed, 'none'), ...report.assumedAway.map((one) => item(one))],
    },
    ...some('Soft evidence: it moved the ranking and ruled nothing out', report.soft),
    ...some('Fuses and breakers that opened', report.blown),
    ...some('Could not show so far', report.hidden),
    ...some('Not told apart by any reachable test', report.alike),
    ...some('If one finding were wrong', report.weakLinks),
    ...some('Tests not done', report.skipped),
    { title: 'Other explanations that remain', body: items(report.remaining, 'none in this drawing') },
    ...some('Always open besides', report.open),
    ...some('Still asked for', report.asks),
    {
      title: 'Parts',
      body: [
        { kind: 'field', label: 'Replaced', text: report.replaced.join('; ') || 'none' },
        { kind: 'field', label: 'Not replaced', text: report.notReplaced.join('; ') || 'all others' },
        ...(report.replaced.length > 0
          ? [text('Old parts kept for the customer: ____________________')]
          : []),
      ],
    },
    { title: 'Time and money', body: timeLines(report) },
    { title: 'Notes and modifications seen', body: items(report.notes, 'none') },
    { title: 'Cautions', body: items(report.cautions, "Follow the maker's procedure.") },
  ];
  return sections.filter(({ body }) => body.length > 0);
}

/** A section only where there is something to say. */
function some(title: string, list: readonly string[]): readonly Section[] {
  return list.length === 0 ? [] : [{ title, body: list.map((one) => item(one)) }];
}

const CERTAINTY: Record<Cause['certainty'], string> = {
  confirmed: 'confirmed',
  'only one left': 'the only one left in this drawing',
  'most likely': 'most likely, not confirmed',
  'not found': 'not found',
};

function causeLines(cause: Cause): readonly Line[] {
  return [
    ...(cause.faults.length > 1 ? [text('One of these; no test told them apart:')] : []),
    ...cause.faults.map((fault): Line =>
      cause.faults.length > 1 ? { kind: 'item', text: fault } : text(fault),
    ),
    text(cause.grounds),
    // Fitted, not measured: it must never look like a reading.
    ...(cause.severity === undefined
      ? []
      : [text(`Severity that fits the readings (calculated, not measured): ${cause.severity}.`)]),
    ...(cause.course === 'comes and goes'
      ? [
          text(
            'It fits only as a fault that comes and goes: it can stay away for a while without being mended.',
          ),
        ]
      : []),
    ...(Math.abs(cause.share - cause.measuredShare) < NOTABLE
      ? []
      : [
          text(
            `Share of what remains: ${percent(cause.share)}; by measurements alone ${percent(cause.measuredShare)}.`,
          ),
        ]),
    ...(cause.explains.length === 0 ? [] : [text('What it explains (predictions are calculated):')]),
    ...cause.explains.map(({ finding, reading, predicted, healthy }) =>
      item(`finding ${finding} was ${reading} [predicted: ${predicted}; healthy: ${healthy}]`),
    ),
    ...(cause.conclusion ? [text(`Technician's conclusion: ${cause.conclusion}`)] : []),
  ];
}

/** The reading first, the prediction in brackets. */
function ruledOutLines(report: Report): readonly Line[] {
  if (report.ruledOut.length === 0) return [text('nothing yet')];
  return [
    text('Single faults at these parts; each fault by name stands in the JSON form of this report.'),
    ...report.ruledOut.map((one): Line => ({
      kind: 'item',
      text: `finding ${one.finding} was ${one.reading} [predicted for what it rules out: ${one.predicted}]: ${one.parts.join(', ')}`,
    })),
  ];
}

function timeLines(report: Report): readonly Line[] {
  const minutes = report.minutesOpen === undefined ? 'not recorded' : `${report.minutesOpen} min`;
  return [
    { kind: 'field', label: 'Session', text: `${minutes} from the first to the last entry` },
    {
      kind: 'field',
      label: 'Repair',
      text: report.repairMinutes > 0 ? `${report.repairMinutes} min` : 'not recorded',
    },
    { kind: 'field', label: 'Price', text: report.price > 0 ? String(report.price) : 'not recorded' },
  ];
}

function item(words: string): Line {
  return { kind: 'item', text: words };
}

function text(words: string): Line {
  return { kind: 'text', text: words };
}

function items(list: readonly string[], none: string): readonly Line[] {
  return list.length === 0 ? [text(none)] : list.map((one) => ({ kind: 'item', text: one }));
}
