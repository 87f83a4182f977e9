/** Where each piece of a drawing stands in a session: suspect, confirmed, cleared … by a sign and a word, never by colour alone. */
import type { PointId } from '../../circuit/circuit.js';
import type { Diagnosis, Status } from '../../diagnosis/diagnosis-types.js';
import { percent } from '../layout.js';
import type { Link } from '../../circuit/links.js';

export interface Mark {
  readonly status: Status;
  /** One character. */
  readonly sign: string;
  /** "suspect 12 %"; empty where the sign says enough. */
  readonly words: string;
}

export interface Marks {
  /** Undefined = nothing is known of it, as before a session. */
  link(link: Link): Mark | undefined;
  /** A splice, stud or battery post. */
  point(point: PointId): Mark | undefined;
}

/** A suspect below this share has its sign only, so that the ones that matter stand out. */
const WORDED = 0.01;

export const NO_MARKS: Marks = { link: () => undefined, point: () => undefined };

export const SIGNS: Readonly<Record<Status, readonly [sign: string, meaning: string]>> = {
  suspect: ['?', 'suspect'],
  confirmed: ['!', 'confirmed'],
  assumed: ['=', 'assumed good, not tested'],
  'not on its own': ['-', 'not on its own'],
  cleared: ['+', 'cleared'],
};

export function marksOf({ parts, suspects, abnormal }: Diagnosis): Marks {
  // Before anything was found everything is a suspect, and a sign at every line says nothing.
  if (!abnormal) return NO_MARKS;
  const statuses = new Map(parts.map(({ part, status }) => [part, status]));
  /** @param holds whether a fault site of that part is in this piece */
  const mark = (part: string, holds: (site: string) => boolean): Mark | undefined => {
    const status = statuses.get(part);
    if (status === undefined) return undefined;
    const plain = (of: Status): Mark => ({
      status: of,
      sign: SIGNS[of][0],
      words: of === 'cleared' || of === 'not on its own' ? '' : of,
    });
    if (status !== 'suspect' && status !== 'confirmed') return plain(status);
    const own = suspects.filter(({ faults }) =>
      faults.some((fault) => fault.part === part && holds(fault.site)),
    );
    if (own.length === 0) return plain('not on its own');
    const share = own.reduce((sum, one) => sum + one.share, 0);
    const now: Status = own.some(({ confirmed }) => confirmed) ? 'confirmed' : 'suspect';
    return {
      status: now,
      sign: SIGNS[now][0],
      words: now === 'suspect' && share < WORDED ? '' : `${now} ${percent(share)}`,
    };
  };
  return {
    link: (link) => mark(link.owner, (site) => isInside(site, link)),
    point: (point) =>
      mark(
        point.split('.')[0]!,
        (site) => site === point || site.startsWith(`${point}/`) || site.includes(':'),
      ),
  };
}

function isInside(site: string, { kind, owner, ends, keys }: Link): boolean {
  if (kind === 'wire') return true;
  if (ends.includes(site) || (kind === 'pin' && `${site}h` === ends[0])) return true;
  if (!site.startsWith(`${owner}:`)) return false;
  const within = site.slice(owner.length + 1);
  return (
    keys.length === 0 ||
    keys.some((key) => within === key || within.startsWith(`${key} `) || within.startsWith(`${key}-`))
  );
}
