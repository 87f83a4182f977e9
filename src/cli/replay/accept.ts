/** What a session written by hand would have to expect so that it holds today: only the entries that differ, as mildly as before. */
import type { Expectation } from '../../files/session-expect.js';
import type { ExpectValue } from '../../files/session-update.js';
import { leadingOpen, leadingParts, reportedCause } from '../../report/judgement-of.js';
import { rangeWords } from '../../report/severity-words.js';
import type { Session } from '../session.js';
import { statusOf } from '../show/why.js';
import { blamedParts, isSuspect, nextTest } from './expectations.js';

/** Keys as the file spells them; undefined takes the entry out. */
export type Accepted = ReadonlyMap<string, ExpectValue | undefined>;

const MOST_SUSPECTS = 5;

export function acceptable(
  session: Session,
  expect: Expectation,
  keys: readonly (keyof Expectation)[],
): Accepted {
  return new Map(keys.map((key) => [WRITTEN[key], valueOf(key, session, expect)] as const));
}

/** For a session that expects nothing yet. */
export function firstExpectation(session: Session): Accepted {
  const { suspects } = session.diagnosis;
  const keys: readonly (keyof Expectation)[] =
    suspects.length > 0 ? ['suspects', 'top', 'fits', 'verified'] : ['open', 'fits', 'verified'];
  return acceptable(session, {}, keys);
}

const WRITTEN: Readonly<Record<keyof Expectation, string>> = {
  suspects: 'suspects',
  top: 'top',
  notOnItsOwn: 'not on its own',
  notBlamed: 'not blamed',
  cleared: 'cleared',
  fits: 'fits',
  verified: 'verified',
  severity: 'severity',
  open: 'open',
  course: 'course',
  cause: 'cause',
  certainty: 'certainty',
  next: 'next',
  drawing: 'drawing',
};

function valueOf(key: keyof Expectation, session: Session, expect: Expectation): ExpectValue | undefined {
  const { diagnosis } = session;
  const some = (list: readonly string[]): readonly string[] | undefined =>
    list.length === 0 ? undefined : list;
  const status = (name: string): string => statusOf(diagnosis, name)?.status ?? 'unknown';
  switch (key) {
    case 'suspects': {
      const kept = (expect.suspects ?? []).filter((name) => isSuspect(diagnosis, name));
      const leading = diagnosis.suspects.flatMap(({ faults }) => faults.map(({ id }) => id));
      return some(kept.length > 0 ? kept : [...new Set(leading)].slice(0, MOST_SUSPECTS));
    }
    case 'top':
      return some(leadingParts(diagnosis, expect.top?.length ?? 1));
    case 'notOnItsOwn':
      return some(
        (expect.notOnItsOwn ?? []).filter((name) => ['not on its own', 'cleared'].includes(status(name))),
      );
    case 'cleared':
      return some((expect.cleared ?? []).filter((name) => status(name) === 'cleared'));
    case 'notBlamed': {
      const blamed = blamedParts(session);
      return some((expect.notBlamed ?? []).filter((name) => !blamed.includes(name)));
    }
    case 'severity':
      return severities(session, expect);
    case 'open': {
      const open = leadingOpen(diagnosis);
      return open === 'none' ? undefined : open;
    }
    case 'course':
      return diagnosis.suspects[0]?.course;
    case 'cause':
      return some(reportedCause(session.circuit, session.case, diagnosis).parts);
    case 'certainty':
      return reportedCause(session.circuit, session.case, diagnosis).certainty;
    case 'next':
      return nextTest(session) || undefined;
    case 'fits':
    case 'verified':
      return String(diagnosis[key]);
    case 'drawing':
      return undefined;
  }
}

/** Ranges that still meet stay as they are written; the others become what is fitted now, or go. */
function severities(session: Session, expect: Expectation): ReadonlyMap<string, string | undefined> {
  return new Map(
    [...(expect.severity ?? [])].flatMap(([fault, range]): [string, string | undefined][] => {
      const suspect = session.diagnosis.suspects.find(({ faults }) => faults.some(({ id }) => id === fault));
      const fitted = suspect?.severities[suspect.faults.findIndex(({ id }) => id === fault)];
      if (fitted === undefined) return [[fault, undefined]];
      const meets = fitted.unit === range.unit && fitted.low <= range.high && fitted.high >= range.low;
      return meets ? [] : [[fault, rangeWords(fitted)]];
    }),
  );
}
