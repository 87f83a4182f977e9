/** Before closing: does the answer hang on one reading? Then it is worth taking again. */
import type { Event } from '../../session/events.js';
import { weakLinkWords } from '../../report/symptom-words.js';
import type { Output } from '../output.js';
import type { Session } from '../session.js';
import { paragraph } from '../show/page.js';
import type { Asker } from './asker.js';

/** Findings named before the rest is only counted. */
const MOST = 4;

/** Says on which findings the answer hangs; nothing after a verified repair, which proves more than any of them. */
export function sayWeakLinks(session: Session, output: Output): boolean {
  const { weakLinks } = session;
  for (const link of weakLinks.slice(0, MOST))
    output.say(paragraph(weakLinkWords(link), '', '  '), 'warning');
  if (weakLinks.length > MOST) output.say(`  and ${weakLinks.length - MOST} more; see the report`);
  return weakLinks.length > 0;
}

/** True when the person would rather take a reading again than close. */
export async function goBack(session: Session, asker: Asker, output: Output): Promise<boolean> {
  if (!sayWeakLinks(session, output) || !asker.person) return false;
  const answer = await asker.ask('Go back and take it again? (Enter = yes, no = close all the same)');
  return answer !== undefined && !/^n/i.test(answer);
}

export function closes(events: readonly Event[]): boolean {
  return events.some((event) => event.type === 'closed');
}
