/** The first paragraph of the report: what failed, why, what was done, what it costs, fit to use or not. For the customer. */
import type { Case } from '../session/case.js';
import { listWords } from './layout.js';
import type { Cause, Verification } from './report-data.js';

export function customerParagraph(about: {
  readonly session: Case;
  readonly cause: Cause;
  readonly verification: Verification;
  readonly corrections: readonly string[];
  readonly price: number;
}): string {
  const { session, cause, verification, corrections, price } = about;
  const sentences = [
    session.concern.complaint === undefined ? '' : `You told us: "${session.concern.complaint}".`,
    causeSentence(cause),
    corrections.length === 0 ? 'No repair has been recorded.' : `What was done: ${listWords(corrections)}.`,
    price > 0 ? `Parts and work recorded: ${price} in your currency.` : 'No price was recorded.',
    fitness(verification),
  ];
  return sentences.filter((sentence) => sentence !== '').join(' ');
}

function causeSentence(cause: Cause): string {
  const what = cause.inShort;
  switch (cause.certainty) {
    case 'confirmed':
      return `The cause was ${what}.`;
    case 'only one left':
      return `The only cause left in the wiring drawing is ${what}; this was not confirmed.`;
    case 'most likely':
      return `The most likely cause is ${what}; this is not proved.`;
    case 'not found':
      return cause.conclusion === undefined || cause.conclusion === ''
        ? 'The cause has not been found yet.'
        : `The technician names this cause: "${cause.conclusion}"; the readings do not prove it.`;
  }
}

function fitness(verification: Verification): string {
  switch (verification.state) {
    case 'verified':
      return 'After the repair the failed condition was repeated and everything worked: fit to use as far as this circuit is concerned.';
    case 'partly verified':
      return 'Only part of what failed was tried again: have the rest checked before you rely on it.';
    case 'not verified':
      return 'The repair has not been verified: do not take the vehicle on the road relying on this circuit until it has been checked.';
  }
}
