/**
 * Two judgements of one session side by side: what was concluded then and what is concluded now. A short list, each line with the
 * finding that makes the difference: what the fault would have read there, and what was read.
 */
import type { FallenThen, Judgement, SeverityThen } from '../session/judgement.js';
import { few } from './layout.js';
import { rangeWords } from './severity-words.js';

/** Faults of one line named before the rest is only counted. */
const MOST_NAMED = 6;
/** Ends of a severity within this factor are the same: figures are shown with two digits. */
const SAME_SEVERITY = 1.1;

/** One line for each difference; none = the same is concluded. */
export function judgementDiffers(then: Judgement, now: Judgement): readonly string[] {
  return [...suspectsDiffer(then, now), ...answersDiffer(then, now), ...severitiesDiffer(then, now)];
}

/** Readings of which another value would have been healthy then: they lead to what was changed. */
export function healthyMoved(then: Judgement, now: Judgement): readonly string[] {
  const before = new Map(then.findings.map((one) => [one.number, one]));
  return now.findings.flatMap(({ number, healthy, reading }) => {
    const known = before.get(number);
    return known === undefined || known.healthy === healthy
      ? []
      : [`#${number} was ${reading}; healthy would have been ${known.healthy} then, is ${healthy} now`];
  });
}

function suspectsDiffer(then: Judgement, now: Judgement): readonly string[] {
  const gone = without(then.suspects, now.suspects);
  const come = without(now.suspects, then.suspects);
  const [fellNow, fellThen] = [fallenBy(now), fallenBy(then)];
  return [
    ...grouped(gone, fellNow).map(([names, fall]) =>
      fall === undefined
        ? `- ${names}: does not fit any more`
        : `- ${names}: #${fall.finding} rules it out now: it would have been ${fall.prediction}, was ${fall.reading}`,
    ),
    ...grouped(come, fellThen).map(([names, fall]) =>
      fall === undefined
        ? `+ ${names}: did not fit then, fits now`
        : `+ ${names}: fits now; then #${fall.finding} ruled it out: it would have been ${fall.prediction}, was ${fall.reading}`,
    ),
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
  const abnormal = new Map(then.findings.map((one) => [one.number, one.abnormal]));
  for (const one of now.findings)
    if (abnormal.get(one.number) === !one.abnormal)
      lines.push(
        `#${one.number} (${one.reading}): ${one.abnormal ? 'as a healthy vehicle reads then, not now' : 'not as a healthy vehicle reads then; now it is'} (healthy now ${one.healthy})`,
      );
  return lines;
}

function causeWords({ cause }: Judgement): string {
  return cause.parts.length === 0
    ? cause.certainty
    : `${few([...cause.parts].sort(), MOST_NAMED)} (${cause.certainty})`;
}

function severitiesDiffer(then: Judgement, now: Judgement): readonly string[] {
  const before = new Map(then.severities.map((one) => [one.fault, one]));
  return now.severities.flatMap((one) => {
    const known = before.get(one.fault);
    return known === undefined || sameSeverity(known, one)
      ? []
      : [`severity of ${one.fault}: ${rangeWords(known)} then, ${rangeWords(one)} now`];
  });
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
function grouped(
  hypotheses: readonly string[],
  fallen: ReadonlyMap<string, FallenThen>,
): readonly (readonly [names: string, fall: FallenThen | undefined])[] {
  const groups = new Map<FallenThen | undefined, string[]>();
  for (const one of hypotheses) {
    const fall = fallen.get(one);
    const group = groups.get(fall);
    if (group === undefined) groups.set(fall, [one]);
    else group.push(one);
  }
  return [...groups].map(([fall, names]) => [few(names, MOST_NAMED), fall]);
}

function without(these: readonly string[], those: readonly string[]): readonly string[] {
  const known = new Set(those);
  return these.filter((one) => !known.has(one));
}

function yesNo(flag: boolean): string {
  return flag ? 'yes' : 'no';
}
