/** `demo`: a recorded session from the complaint to its report, without a question. */
import { fileURLToPath } from 'node:url';
import { printDiagnostics } from '../../circuit/print-diagnostic.js';
import { readSessionFile } from '../../files/session-file.js';
import { printReport } from '../../report/report.js';
import { describeEvent } from '../../session/describe-event.js';
import type { CommandResult, Context } from '../context.js';
import { Failure } from '../failure.js';
import { STATUS } from '../io.js';
import { memoryRecorder, Session } from '../session.js';
import { sessionReport } from '../session-report.js';
import { paragraph } from '../show/page.js';
import { showConsequences } from '../show/consequences.js';
import { showSuspects } from '../show/suspects.js';

const DEMO = fileURLToPath(new URL('../../../examples/reversing-dead-lamp.yaml', import.meta.url));

export async function demo({ output }: Context): CommandResult {
  const loaded = await readSessionFile(DEMO);
  if ('problems' in loaded)
    throw new Failure(printDiagnostics(loaded.source, DEMO, loaded.problems).join('\n'));
  output.result(`Demo: ${loaded.title}`, 'strong');
  output.result(paragraph('All of it is invented. This is what a session looks like; nothing is recorded.'));
  const session = new Session(loaded.circuit, [], memoryRecorder(loaded.hash), () => '');
  for (const { event } of loaded.recorded) {
    const before = session.diagnosis;
    const words = describeEvent(session.circuit, event, session.case.now);
    const [recorded] = await session.record([event]);
    output.result('');
    output.result(paragraph(words, `#${recorded!.number} `, '   '), 'strong');
    const changed = showConsequences(before, session.diagnosis, [recorded!.number]);
    for (const line of changed) output.result(line);
    if (session.diagnosis.groups.length !== before.groups.length)
      for (const line of showSuspects(session.diagnosis, 3)) output.result(line);
  }
  output.result('');
  output.result(printReport(sessionReport(session), 'text', { ascii: output.ascii }).trimEnd());
  return STATUS.ok;
}
