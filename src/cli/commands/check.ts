/** `check FILE...`: are these circuit, session and exercise files right? */
import { resolve } from 'node:path';
import { sorted, type Diagnostic } from '../../circuit/diagnostic.js';
import { placeOf, printDiagnostics } from '../../circuit/print-diagnostic.js';
import { createWorkbench } from '../../diagnosis/workbench.js';
import { parseCircuit } from '../../files/circuit-file.js';
import { parseExercise } from '../../files/exercise-file.js';
import { parseSession } from '../../files/session-file.js';
import { readTextFile } from '../../files/text-file.js';
import { readYaml } from '../../files/yaml-source.js';
import { adviseOn } from '../../planning/advice/advice.js';
import type { CommandResult, Context } from '../context.js';
import { STATUS } from '../io.js';

interface Checked {
  readonly kind: 'circuit' | 'session' | 'exercise' | 'unknown';
  readonly source: string;
  readonly found: readonly Diagnostic[];
}

const JOURNAL: Diagnostic = {
  code: 'not-used-here',
  severity: 'error',
  range: { start: 0, end: 0 },
  message: 'this is a journal, not a file written by hand',
  mend: 'it is checked whenever it is opened: knowngood replay FILE',
};

export async function check(
  { io, output }: Context,
  files: readonly string[],
  { json = false, strict = false }: { json?: boolean; strict?: boolean },
): CommandResult {
  const answers = [];
  let wrong = false;
  let advised = false;
  for (const file of files) {
    const { kind, source, found } = await checkFile(resolve(io.cwd, file));
    const errors = found.filter((one) => one.severity === 'error').length;
    const advice = found.length - errors;
    wrong ||= errors > 0;
    advised ||= advice > 0;
    answers.push({ file, kind, ok: errors === 0, found: found.map((one) => ({ ...placed(source, one) })) });
    if (json) continue;
    if (found.length > 0) output.result(printDiagnostics(source, file, found).join('\n'));
    if (errors > 0) continue;
    const words = advice === 0 ? '' : `; ${advice} ${advice === 1 ? 'piece' : 'pieces'} of advice`;
    output.result(`${file}: this ${kind} is in order${words}`, 'good');
  }
  if (json) output.json('check', { ok: !wrong, files: answers });
  return wrong || (strict && advised) ? STATUS.negative : STATUS.ok;
}

async function checkFile(path: string): Promise<Checked> {
  const file = await readTextFile(path);
  if ('problems' in file) return { kind: 'unknown', source: file.source, found: file.problems };
  if (/^[0-9a-f]{64} \{"knowngood":"journal"/.test(file.text))
    return { kind: 'unknown', source: file.text, found: [JOURNAL] };
  if (/^\uFEFF?[\s\S]{0,4000}?^session\s*:/m.test(file.text)) {
    const session = await parseSession(file.text, path);
    return { kind: 'session', source: file.text, found: 'problems' in session ? session.problems : [] };
  }
  if (/^\uFEFF?[\s\S]{0,4000}?^exercise\s*:/m.test(file.text)) {
    const exercise = await parseExercise(file.text, path);
    return { kind: 'exercise', source: file.text, found: 'problems' in exercise ? exercise.problems : [] };
  }
  return { kind: 'circuit', source: file.text, found: circuitFindings(file.text) };
}

/** Its errors; or, where it has none, the advice: of the file itself, and what takes the whole network to see. */
export function circuitFindings(source: string): readonly Diagnostic[] {
  const circuit = parseCircuit(source);
  if ('problems' in circuit) return circuit.problems;
  const yaml = readYaml(source);
  if ('problems' in yaml) return yaml.problems;
  return sorted([...circuit.advice, ...adviseOn(createWorkbench(circuit.circuit), yaml.document.ranges)]);
}

function placed(
  source: string,
  { code, severity, range, message, mend }: Diagnostic,
): Record<string, unknown> {
  return { severity, code, ...placeOf(source, range.start), message, mend };
}
