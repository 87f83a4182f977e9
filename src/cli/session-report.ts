/** The report of a session as it stands, in any of its forms. */
import { buildReport, type Report } from '../report/report.js';
import type { Session } from './session.js';
import { PROGRAM } from './version.js';

/**
 * @param personal false leaves out names and the vehicle's identity
 * @param whole false saves the time of what stands beside the cause: groups alike, each finding left out in turn
 */
export function sessionReport(session: Session, personal = true, whole = true): Report {
  return buildReport({
    circuit: session.circuit,
    session: session.case,
    diagnosis: session.diagnosis,
    program: PROGRAM,
    sessionHash: session.hash,
    personal,
    alike: whole ? session.alike : [],
    weakLinks: whole ? session.weakLinks : [],
    cautions: session.cautions.map((caution) => caution.text),
  });
}
