/** What stands around the suspects, in words: open fuses and breakers and their reasons, faults hidden by others, what stays open, likes. */
import type { WeakLink } from '../diagnosis/drop-one.js';
import type { Alike, BlownFuse, Hidden, OpenQuestion } from '../diagnosis/diagnosis-types.js';
import { few, percent } from './layout.js';
import { placesOf } from './soft-words.js';

const WHY: Readonly<Record<BlownFuse['reasons'][number]['why'], string>> = {
  short: 'a short',
  overload: 'too much load',
  'stalled motor': 'a motor that is stuck',
  'old age': 'old age',
};

/** Share of the suspects that must have a fuse open before it is called blown. */
const SURE = 0.95;

/**
 * "F4 is blown. That is a symptom. What may have blown it: a short 72 % (wire W5), old age 28 %." and what to do before it is closed
 * again. A breaker, or an output that shuts down, "has opened".
 */
export function openedWords({ fuse, resets, reasons }: BlownFuse): string {
  const causes = [...reasons]
    .sort((a, b) => b.share - a.share)
    .map(({ why, faults, share }) => {
      const where = faults.length === 0 ? '' : ` (${placesOf(faults)})`;
      return `${WHY[why]} ${percent(share)}${where}`;
    });
  const melts = resets === undefined;
  const what =
    causes.length === 0 ? '' : ` What may have ${melts ? 'blown' : 'opened'} it: ${causes.join('; ')}.`;
  const short = reasons.some(({ why, share }) => why === 'short' && share > 0);
  const chance = reasons.reduce((sum, { share }) => sum + share, 0);
  const stands =
    chance >= SURE
      ? `${melts ? 'is blown' : 'has opened'}. That is a symptom.`
      : `may ${melts ? 'be blown' : 'have opened'} (${percent(chance)}): that is a symptom.`;
  return `${fuse} ${stands}${what}${short ? beforeItCloses(fuse, resets) : ''}`;
}

function beforeItCloses(fuse: string, resets: BlownFuse['resets']): string {
  const ohms = 'ohms to body, section by section, without power';
  switch (resets) {
    case undefined:
      return ` Before another fuse goes in: a test lamp in its place (lamp ${fuse}), or ${ohms}.`;
    case 'automatic':
      return ` It closes again when it is cool, and opens again while a short is there: ${ohms}.`;
    default:
      return ` Before it is reset: ${ohms}.`;
  }
}

/** "If this is there: ..., these may be there as well; nothing so far would have shown them: ... After the repair: ..." */
export function hiddenWords({ behind, faults, advice }: Hidden): string {
  const names = few(
    faults.map(({ label }) => label),
    3,
    '; ',
  );
  return `While this stands in front (${behind.label}), others behind it cannot show and may be there as well: ${names}. ${advice}`.trim();
}

/** Faults named of a group that no test tells apart; places of all of them follow under "look here". */
const MOST_ALIKE = 4;

/** Faults that no reachable test tells apart, what to look at place by place, and which further access would help. */
export function alikeWords({ faults, lookHere, access }: Alike): readonly string[] {
  const names = few(
    faults.map(({ label }) => label),
    MOST_ALIKE,
    '; ',
  );
  return [
    `No reachable test tells these apart: ${names}.`,
    ...placesTogether(lookHere).map((place) => `Look here: ${place}`),
    ...access.map((how) => `With more access: ${how}`),
  ];
}

/** "S4 at S4.1: hot smell" and "S4 at S4.2: hot smell" are one look. */
function placesTogether(places: readonly string[]): readonly string[] {
  const together = new Map<
    string,
    { readonly part: string; readonly sites: string[]; readonly signs: string }
  >();
  for (const place of places) {
    const [, part = place, site, signs = ''] = /^(.*) at (\S+): (.*)$/.exec(place) ?? [];
    const key = JSON.stringify([part, signs]);
    const entry = together.get(key) ?? { part, sites: [], signs };
    if (site !== undefined) entry.sites.push(site);
    together.set(key, entry);
  }
  return [...together.values()].map(({ part, sites, signs }) =>
    sites.length === 0 ? part : `${part} at ${sites.join(', ')}: ${signs}`,
  );
}

/** "no fault now 1 %, a reading is wrong 2 %, the drawing differs <1 %". */
export function openShares(open: readonly OpenQuestion[]): string {
  return open.map(({ what, share }) => `${what} ${percent(share)}`).join(', ');
}

/** "If finding #7 were wrong, this would lead: X. Take it again?" */
export function weakLinkWords({ finding, without }: Pick<WeakLink, 'finding' | 'without'>): string {
  const other =
    without === 'no single repair' ? 'no single repair would lead' : `this would lead: ${without}`;
  return `If finding #${finding} were wrong, ${other}. Take it again?`;
}
