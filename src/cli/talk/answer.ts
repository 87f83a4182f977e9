/** Answers to questions typed in the conversation. They change nothing. */
import { drawText } from '../../report/drawing/draw-text.js';
import { marksOf } from '../../report/drawing/marks.js';
import { standingOf } from '../../report/drawing/standing.js';
import { printReport } from '../../report/report.js';
import type { Line } from '../../session/parse-line.js';
import type { Output } from '../output.js';
import type { Session } from '../session.js';
import { sessionReport } from '../session-report.js';
import { planFor, printDrawing } from '../show/drawing.js';
import { showAlike, showAround } from '../show/around.js';
import { showHelp } from '../show/help.js';
import { paragraph } from '../show/page.js';
import { showList, showSetUp } from '../show/record.js';
import { showAttempt, showSuggestions } from '../show/suggestion.js';
import { showNoTest } from '../show/no-test.js';
import { showSuspects } from '../show/suspects.js';
import { showWhy, statusOf } from '../show/why.js';

export function answerQuery(line: Extract<Line, { kind: 'query' }>, session: Session, output: Output): void {
  const { circuit, diagnosis } = session;
  const print = (lines: readonly string[]): void => lines.forEach((one) => output.result(one));
  switch (line.query) {
    case 'suspects':
      return print([
        ...showSuspects(diagnosis, Infinity),
        ...showAround(diagnosis, Infinity),
        ...showAlike(session.alike),
      ]);
    case 'next': {
      const { suggestions } = session;
      if (suggestions.length === 0) return print(showNoTest(session.circuit, diagnosis, session.alike));
      return print([
        ...showAttempt(diagnosis, session.advice.attempt, suggestions[0]),
        ...showSuggestions(suggestions),
      ]);
    }
    case 'why': {
      const name = line.about ?? diagnosis.suspects[0]?.faults[0]?.part;
      const status = name === undefined ? undefined : statusOf(diagnosis, name);
      return print(
        status === undefined ? ['Name a part or wire: why F4'] : showWhy(session.circuit, diagnosis, status),
      );
    }
    case 'draw': {
      const standing = standingOf(session.bench, session.case.now, { timeline: session.case.timeline });
      const plan = planFor(circuit, line.about === undefined ? [] : [line.about]);
      return printDrawing(
        output,
        drawText(plan, { marks: marksOf(diagnosis), standing, ascii: output.ascii }),
      );
    }
    case 'setup':
      return output.result(paragraph(showSetUp(circuit, session.case.now)));
    case 'list':
      return print(showList(circuit, session.recorded));
    case 'report':
      return printSession(session, output);
    case 'help':
      return print(showHelp());
    case 'redraw':
    case 'pause':
      return output.say('Not among these questions: type it at the prompt.');
  }
}

/** The report so far, as a result. */
export function printSession(session: Session, output: Output): void {
  output.result(printReport(sessionReport(session), 'text', { ascii: output.ascii }).trimEnd());
}
