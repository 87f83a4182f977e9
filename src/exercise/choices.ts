/**
 * Each choice of an attempt by its expected value on what was known when it was made: not by what came out. A choice is a test or a
 * repair, with the way to it; the best there was is what the program's planner would have done with the same tools.
 */
import type { Diagnosis } from '../diagnosis/diagnosis-types.js';
import { DAMAGE } from '../diagnosis/proof-of-cause.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Suggestion } from '../planning/suggestion.js';
import { isRepair } from '../session/actions.js';
import type { Case } from '../session/case.js';
import { describeEvent } from '../session/describe-event.js';
import type { Action, Event, Reading, Recorded } from '../session/events.js';
import { foldCase } from '../session/fold.js';
import { undoneNumbers } from '../session/observed-order.js';
import type { SetUp } from '../session/setup.js';
import { whenSetUp } from '../session/standing.js';
import { candidateOf, foundation, PLAIN, sameQuestion, wiggleOf, WorthOf } from './best-test.js';
import { complaintSeen, type Complained } from './complaint-events.js';
import type { Insight } from './insight.js';
import { slipsOf } from './ledger.js';
import type { Choice } from './mark-data.js';
import { mendedBy, repairOf } from './mends.js';

/** From this part of the best value on a choice is as good as the best: the planner's own figures are no finer. */
const AS_GOOD = 0.75;
/** Share below which it is no choice at all; nothing is weighed for it. */
const HOPELESS = 0.02;

export function judgeChoices(
  bench: Workbench,
  recorded: readonly Recorded[],
  complained: readonly Complained[],
  insight: Insight,
): readonly Choice[] {
  const slips = slipsOf(recorded);
  const undone = undoneNumbers(recorded);
  const choices: Choice[] = [];
  /** What was known when the person set out for the next test or repair. */
  let known = 0;
  let moved: Action | undefined;
  let predicted: string | undefined;
  let batterySeen = false;
  for (const [index, { number, event }] of recorded.entries()) {
    if (slips.has(number)) continue;
    if (event.type === 'predicted') predicted = event.words;
    const repair = event.type === 'did' && isRepair(event.action);
    const test = (event.type === 'found' && event.evidence !== 'told') || event.type === 'attempted';
    if (event.type === 'did' && !repair) moved = event.action;
    if (!repair && !test) continue;
    // What was known does not count what was taken back since.
    const before = recorded.slice(0, known).filter((one) => !undone.has(one.number) || one.number === number);
    const setUp = whenSetUp(
      event.type === 'found' ? (event.when ?? []) : [],
      foldCase(bench.circuit, recorded.slice(0, index)).now,
    );
    const posts: boolean = event.type === 'found' && isBattery(event.reading) && !batterySeen;
    batterySeen ||= posts;
    if (
      !posts &&
      !isLookAtComplaint(event, setUp, complained) &&
      !repeatsAfterRepair(event, recorded.slice(0, index))
    ) {
      const reading = event.type === 'found' || event.type === 'attempted' ? event.reading : undefined;
      const judged = judge(bench, insight, before, event, reading, setUp, moved);
      if (judged !== undefined) {
        const after = recorded.slice(0, index + 1);
        choices.push({
          ...judged,
          number,
          words: describeEvent(bench.circuit, event, foldCase(bench.circuit, recorded.slice(0, index)).now),
          predicted,
          ...outcome(insight.diagnosis(before), insight.diagnosis(after), number),
        });
      }
    }
    known = index + 1;
    moved = undefined;
    predicted = undefined;
  }
  return choices;
}

type Judged = Pick<Choice, 'kind' | 'bits' | 'value' | 'best' | 'score'>;

function judge(
  bench: Workbench,
  insight: Insight,
  before: readonly Recorded[],
  event: Event,
  reading: Reading | undefined,
  setUp: SetUp,
  moved: Action | undefined,
): Judged | undefined {
  const session = foldCase(bench.circuit, before);
  const diagnosis = insight.diagnosis(before);
  if (event.type === 'did')
    return judgeRepair(bench, session, diagnosis, event.action, () => insight.best(before));
  if (reading === undefined || reading.kind === 'look' || !diagnosis.abnormal) return undefined;
  if (diagnosis.groups.length < 2) return undefined;
  const best = insight.best(before);
  if (best === undefined) return undefined;
  const wiggle = moved?.do === 'wiggle' || moved?.do === 'reseat' ? moved : undefined;
  const own = candidateOf(bench, reading, setUp, wiggle);
  const theirs = candidateOf(bench, best.reading, best.setUp, wiggleOf(best));
  const worth = new WorthOf(bench, session, diagnosis);
  const [bits, most] = [worth.test(own), worth.test(theirs)];
  const nothing = { bits: 0, value: 0 };
  const { line } = best;
  const bestWorth = { line, bits: most?.bits ?? 0, value: most?.value ?? 0 };
  if (event.type === 'attempted') return { kind: 'test', ...nothing, best: bestWorth, score: 0 };
  const same = sameQuestion(bench, own, theirs) && wiggle?.at === theirs.wiggle?.at;
  const score = same ? 1 : scoreOf(bits?.value ?? 0, bestWorth.value);
  return { kind: 'test', bits: bits?.bits ?? 0, value: bits?.value ?? 0, best: bestWorth, score };
}

function judgeRepair(
  bench: Workbench,
  session: Case,
  diagnosis: Diagnosis,
  action: Action,
  bestTest: () => Suggestion | undefined,
): Judged | undefined {
  const ids = new Set(mendedBy(bench, action).map(({ id }) => id));
  const share = diagnosis.suspects
    .filter(({ faults }) => faults.some(({ id }) => ids.has(id)))
    .reduce((sum, suspect) => sum + suspect.share, 0);
  // A fuse that is known to be blown is renewed whatever else is wrong, and damage that was seen is mended.
  if (action.do === 'fit new' && isBlown(diagnosis, action.part)) return undefined;
  if (isRepair(action) && seenDamaged(session, action)) return undefined;
  // Without having seen it fail nobody can know what to repair.
  if (!diagnosis.abnormal && !saysComplaint(session))
    return { kind: 'repair', bits: 0, value: share, best: undefined, score: 0 };
  const most = Math.max(0, ...diagnosis.groups.map((group) => group.share));
  if (diagnosis.groups.length > 1 && share < HOPELESS && share < most / 2)
    return { kind: 'repair', bits: 0, value: share, best: undefined, score: 0 };
  if (share >= PLAIN) return { kind: 'repair', bits: 0, value: 0, best: undefined, score: 1 };
  const repair = repairOf(bench, action);
  const best = bestTest();
  if (best === undefined)
    return { kind: 'repair', bits: 0, value: share, best: undefined, score: scoreOf(share, most) };
  const worth = new WorthOf(bench, session, diagnosis);
  const tried = worth.repair(share, repair ?? { minutes: 10, price: 0 });
  const test = worth.test(candidateOf(bench, best.reading, best.setUp, wiggleOf(best)));
  const { line } = best;
  return {
    kind: 'repair',
    bits: tried.bits,
    value: tried.value,
    best: { line, bits: test?.bits ?? 0, value: test?.value ?? 0 },
    score: scoreOf(tried.value, test?.value ?? 0) * foundation(share, test),
  };
}

function scoreOf(value: number, best: number): number {
  if (best <= 0) return 1;
  const part = value / best;
  return part >= AS_GOOD ? 1 : part / AS_GOOD;
}

/** What it told: repairs left before and after, and what was read out of it. */
function outcome(was: Diagnosis, is: Diagnosis, number: number): Pick<Choice, 'told' | 'left'> {
  const told = is.findings.find((sense) => sense.number === number)?.provedWhat ?? '';
  return { told, left: [was.groups.length, is.groups.length] };
}

/** A load seen before is looked at again because something was repaired since. */
function repeatsAfterRepair(event: Event, before: readonly Recorded[]): boolean {
  if (event.type !== 'found' || event.reading.kind !== 'load') return false;
  const { load } = event.reading;
  const seen = before.findLastIndex(
    (one) =>
      one.event.type === 'found' && one.event.reading.kind === 'load' && one.event.reading.load === load,
  );
  return (
    seen >= 0 && before.slice(seen).some((one) => one.event.type === 'did' && isRepair(one.event.action))
  );
}

/** Something was seen failing, though a healthy vehicle might show it on a bad day: a lamp that is dim. */
function saysComplaint({ timeline }: Case): boolean {
  return timeline.some((step) => step.kind === 'finding' && step.finding.evidence !== 'told');
}

function isBattery(reading: Reading): boolean {
  return reading.kind === 'volts' && reading.red === 'bat+' && reading.black === 'bat-';
}

function isLookAtComplaint(event: Event, setUp: SetUp, complained: readonly Complained[]): boolean {
  if (event.type !== 'found' || event.reading.kind !== 'load') return false;
  const { out, unplugged, jumpers, fitted, lamps } = setUp;
  if (out.size + unplugged.size + jumpers.length + fitted.size + lamps.size > 0) return false;
  return complaintSeen(complained, event.reading.load, setUp) !== undefined;
}

/** So sure that a fuse is blown that nobody need see it (our own figure). */
const SURELY = 0.9;

function isBlown({ blown }: Diagnosis, part: string): boolean {
  const reasons = blown.find(({ fuse }) => fuse === part)?.reasons ?? [];
  return reasons.reduce((sum, { share }) => sum + share, 0) >= SURELY;
}

/** Was damage seen at the place that is repaired? */
function seenDamaged({ timeline }: Case, action: Action): boolean {
  const at = 'part' in action ? action.part : 'at' in action ? action.at : undefined;
  return timeline.some(
    (step) =>
      step.kind === 'finding' &&
      step.finding.reading.kind === 'look' &&
      step.finding.reading.at === at &&
      DAMAGE.has(step.finding.reading.value),
  );
}
