/**
 * Two judgements of one session side by side: what was concluded then and what is concluded now. A short list, each line with the
 * finding that makes the difference: what the fault would have read there, and what was read.
 */
import type { FallenThen, Judgement, SeverityThen } from '../session/judgement.js';
import { few } from './layout.js';
import { rangeWords } from './severity-words.js';

/** Faults of one line named before the rest is only counted. */
const MOST_NAMED = 4;
/** Lines told of faults that went, that came, and of severities. */
const MOST_GROUPS = 3;
/** Ends of a severity within this factor are the same: figures are shown with two digits. */
const SAME_SEVERITY = 1.1;

/** One line for each difference, many alike counted; none = the same is concluded. */
export function judgementDiffers(then: Judgement, now: Judgement): readonly string[] {
  return [...answersDiffer(then, now), ...suspectsDiffer(then, now), ...severitiesDiffer(then, now)];
}

/** Readings of which another value would have been healthy then: they lead to what was changed. */
export function healthyMoved(then: Judgement, now: Judgement): readonly string[] {
  const before = new Map(then.findings.map((one) => [one.number, one]));
  return now.findings.flatMap(({ number, healthy, reading, abnormal }) => {
    const known = before.get(number);
    return known === undefined || known.healthy === healthy || known.abnormal !== abnormal
      ? []
      : [`#${number} was ${reading}; healthy would have been ${known.healthy} then, is ${healthy} now`];
  });
}

function suspectsDiffer(then: Judgement, now: Judgement): readonly string[] {
  const gone = without(then.suspects, now.suspects);
  const come = without(now.suspects, then.suspects);
  const [fellNow, fellThen] = [fallenBy(now), fallenBy(then)];
  return [
    ...shortened(grouped(gone, fellNow), '-', (fall) =>
      fall === undefined
        ? 'does not fit any more'
        : `#${fall.finding} rules it out now: it would have been ${fall.prediction}, was ${fall.reading}`,
    ),
    ...shortened(grouped(come, fellThen), '+', (fall) =>
      fall === undefined
        ? 'did not fit then, fits now'
        : `fits now; then #${fall.finding} ruled it out: it would have been ${fall.prediction}, was ${fall.reading}`,
    ),
  ];
}

type Group = readonly [faults: readonly string[], fall: FallenThen | undefined];

/** The likeliest first; what is beyond the most lines is only counted. */
function shortened(
  groups: readonly Group[],
  sign: string,
  words: (fall: FallenThen | undefined) => string,
): readonly string[] {
  const rest = groups.slice(MOST_GROUPS).reduce((sum, [faults]) => sum + faults.length, 0);
  return [
    ...groups
      .slice(0, MOST_GROUPS)
      .map(([faults, fall]) => `${sign} ${few(faults, MOST_NAMED)}: ${words(fall)}`),
    ...(rest > 0 ? [`${sign} and ${rest} more ${rest === 1 ? 'fault' : 'faults'}`] : []),
  ];
}

function answersDiffer(then: Judgement, now: Judgement): readonly string[] {
  const lines: string[] = [];
  const tell = (what: string, before: string, after: string): void => {
    if (before !== after) lines.push(`${what}: ${before} then, ${after} now`);
  };
  const names = (parts: readonly string[]): string =>
    parts.length === 0 ? 'nobody' : few([...parts].sort(), MOST_NAMED);
  tell('leading', names(then.lead), names(now.lead));
  tell('cause', causeWords(then), causeWords(now));
  tell('a fault of the drawing fits', yesNo(then.fits), yesNo(now.fits));
  tell('repair verified', yesNo(then.verified), yesNo(now.verified));
  tell('weighs most of what is open', then.open, now.open);
  if (then.next !== undefined && now.next !== undefined) tell('next test', then.next, now.next);
  const before = new Map(then.findings.map((one) => [one.number, one]));
  for (const { number, reading, healthy, abnormal } of now.findings) {
    const known = before.get(number);
    if (known === undefined || known.abnormal === abnormal) continue;
    const state = (amiss: boolean): string => (amiss ? 'out of order' : 'in order');
    lines.push(
      `#${number} (${reading}) was ${state(known.abnormal)} then (healthy: ${known.healthy}), is ${state(abnormal)} now (healthy: ${healthy})`,
    );
  }
  return lines;
}

function causeWords({ cause }: Judgement): string {
  return cause.parts.length === 0
    ? cause.certainty
    : `${few([...cause.parts].sort(), MOST_NAMED)} (${cause.certainty})`;
}

function severitiesDiffer(then: Judgement, now: Judgement): readonly string[] {
  const before = new Map(then.severities.map((one) => [one.fault, one]));
  const groups = new Map<string, string[]>();
  for (const one of now.severities) {
    const known = before.get(one.fault);
    if (known === undefined || sameSeverity(known, one)) continue;
    const change = `${rangeWords(known)} then, ${rangeWords(one)} now`;
    groups.set(change, [...(groups.get(change) ?? []), one.fault]);
  }
  const rest = groups.size - MOST_GROUPS;
  return [
    ...[...groups]
      .slice(0, MOST_GROUPS)
      .map(([change, faults]) => `severity of ${few(faults, MOST_NAMED)}: ${change}`),
    ...(rest > 0 ? [`and ${rest} more ${rest === 1 ? 'severity' : 'severities'}`] : []),
  ];
}

function sameSeverity(a: SeverityThen, b: SeverityThen): boolean {
  const near = (x: number, y: number): boolean =>
    x === y || (x > 0 && y > 0 && Math.max(x, y) / Math.min(x, y) <= SAME_SEVERITY);
  return a.unit === b.unit && near(a.low, b.low) && near(a.high, b.high);
}

function fallenBy({ fallen }: Judgement): ReadonlyMap<string, FallenThen> {
  return new Map(fallen.flatMap((one) => one.faults.map((fault) => [fault, one] as const)));
}

/** Hypotheses that share a reason stand together, in the order given. */
function grouped(hypotheses: readonly string[], fallen: ReadonlyMap<string, FallenThen>): readonly Group[] {
  const groups = new Map<FallenThen | undefined, string[]>();
  for (const one of hypotheses) {
    const fall = fallen.get(one);
    const group = groups.get(fall);
    if (group === undefined) groups.set(fall, [one]);
    else group.push(one);
  }
  return [...groups].map(([fall, names]) => [names, fall]);
}

function without(these: readonly string[], those: readonly string[]): readonly string[] {
  const known = new Set(those);
  return these.filter((one) => !known.has(one));
}

function yesNo(flag: boolean): string {
  return flag ? 'yes' : 'no';
}
