/**
 * The marks of one attempt, of 100: what was found, how well each test was chosen on what was known then, what it cost, what was
 * said without proof, what was unsafe, whether the repair was proved. Every mark lost names its event.
 */
import { isRepair } from '../session/actions.js';
import { describeEvent } from '../session/describe-event.js';
import { undoneNumbers } from '../session/observed-order.js';
import { judgeChoices } from './choices.js';
import { unsupportedClaims } from './claims.js';
import type { MarkItem } from './exercise.js';
import { provedConditions } from './proved.js';
import { slipsOf } from './ledger.js';
import type { Choice, Loss, Mark } from './mark-data.js';
import type { Road } from './planner-road.js';
import type { Run } from './run.js';

/** Parts of the marks of an item that one thing costs. */
const COSTS = { claim: 0.4, part: 0.5, spoilt: 0.5 };
/** A repair on a guess is one that was worth less than this part of the best choice. */
const FAIR_CHOICE = 0.75;
/** After a grave unsafe act no more than this many of 100 in all, and less for each further one: safe comes first. */
const CAP = { first: 30, further: 5 };
/** Quick and cheap by guesses is luck: below this part of the marks for choices, minutes and money count for less in proportion. */
const SOUND_CHOICES = 0.5;
/** Left out budgets: twice the planner's minutes, and its money with so much to spare. */
const BUDGET = { times: 2, least: 10, money: 1.2, moneyLeast: 5 };

type Marking = Mark['items'];

function budgetOf(run: Run, par: Pick<Road, 'minutes' | 'money'>): Mark['budget'] {
  const { budget } = run.exercise;
  return {
    minutes: budget.minutes ?? Math.max(BUDGET.least, Math.ceil(BUDGET.times * par.minutes)),
    money: budget.money ?? Math.ceil(Math.max(BUDGET.moneyLeast, BUDGET.money * par.money)),
  };
}

/**
 * @param run gone through from the journal
 * @param par the planner's road on the same vehicle
 */
export function markOf(run: Run, par: Road): Mark {
  const { bench, exercise, recorded, vehicle } = run;
  const { marking } = exercise;
  const undone = undoneNumbers(recorded);
  const slips = slipsOf(recorded);
  const counted = recorded.filter(({ number }) => !undone.has(number));
  const choices = judgeChoices(bench, recorded, run.complained, run.insight);
  const losses: Loss[] = [];
  const words = (number: number) => ({
    number,
    words: describeEvent(bench.circuit, recorded[number - 1]!.event, run.standing(number)),
  });
  const got = (item: MarkItem) =>
    marking[item] - losses.reduce((sum, loss) => (loss.item === item ? sum + loss.marks : sum), 0);
  const lose = (item: MarkItem, marks: number, number: number | undefined, why: string): void => {
    const taken = Math.min(got(item), marks);
    if (taken > 1e-9)
      losses.push({ item, marks: taken, event: number === undefined ? undefined : words(number), why });
  };
  const worked = counted.some(
    ({ event }) => event.type === 'did' || (event.type === 'found' && event.evidence !== 'told'),
  );
  const cured = vehicle.hidden.length === 0 && worked;

  // Found.
  const conclusions = counted.filter(({ event }) => event.type === 'concluded');
  const each = marking.found / exercise.faults.length;
  for (const { fault } of exercise.faults) {
    const here = vehicle.hidden.some((one) => one.fault.id === fault.id);
    if (here) lose('found', 0.7 * each, lastRepair(), `${fault.label} is still there`);
    const group = bench.faults.filter((one) => one.id === fault.id || one.repair.how === fault.repair.how);
    const named = conclusions.some(
      ({ event }) =>
        event.type === 'concluded' &&
        group.some(
          ({ part, site }) => [part, site].includes(event.at) || site === event.at.replace(/[hci]$/, ''),
        ),
    );
    if (!named)
      lose(
        'found',
        0.3 * each,
        conclusions.at(-1)?.number,
        conclusions.length === 0 ? 'no cause was named' : 'another cause was named',
      );
  }

  // Choices.
  if (choices.length === 0) {
    if (!worked || !cured) lose('choices', marking.choices, undefined, 'no test was chosen');
  } else
    for (const choice of choices)
      lose(
        'choices',
        (marking.choices / choices.length) * (1 - choice.score),
        choice.number,
        choiceWords(choice),
      );

  // Minutes and money: quick and cheap count only where the repair is proved to have cured.
  const shown = provedConditions(bench.circuit, counted, run.complained);
  const ledger = run.ledger;
  const spent = run.spent;
  const budget = budgetOf(run, par);
  const proved = shown === run.complained.length && cured;
  if (!proved)
    lose('economy', marking.economy, undefined, 'minutes and money count only for a repair that is proved');
  else {
    const sound = marking.choices === 0 ? 1 : Math.min(1, got('choices') / (SOUND_CHOICES * marking.choices));
    const why =
      'quick and cheap by guesses is luck: minutes and money count as far as the choices were sound';
    lose('economy', (1 - sound) * marking.economy, undefined, why);
    over('minutes', 0.6 * sound);
    over('money', 0.4 * sound);
  }

  // Repairs on a guess.
  if (!cured) lose('parts', marking.parts, lastRepair(), 'parts count only where the vehicle is cured');
  for (const { number, event } of counted) {
    if (event.type !== 'did' || !isRepair(event.action) || slips.has(number)) continue;
    const mended = (run.mets.get(number)?.mended.length ?? 0) > 0;
    const choice = choices.find((one) => one.number === number);
    if (choice !== undefined && choice.score >= FAIR_CHOICE) continue;
    // A fuse seen blown: renewing it is no guess, but renewing it again is.
    if (choice === undefined && (mended || (event.action.do === 'fit new' && !popsAgain(number)))) continue;
    // A guess is not made better by its luck.
    const did = mended ? 'it happened to mend something' : 'it mended nothing';
    lose('parts', COSTS.part * marking.parts, number, `${did}, and what was known did not ask for it`);
  }

  // Claims.
  if (conclusions.length === 0 && !counted.some(({ event }) => event.type === 'claimed'))
    lose('claims', marking.claims, undefined, 'nothing was concluded');
  for (const { number, kind, why } of unsupportedClaims(run))
    lose('claims', kind === 'cause' ? marking.claims : COSTS.claim * marking.claims, number, why);

  // Verification.
  if (!proved)
    lose(
      'verified',
      shown > 0 && shown < run.complained.length ? marking.verified / 2 : marking.verified,
      lastRepair(),
      shown === run.complained.length
        ? 'a fault is still there that the complaint does not show'
        : 'not every condition of the complaint was looked at again, and found good, after the last repair',
    );

  // Safety last: it caps the whole.
  if (!worked) lose('safety', marking.safety, undefined, 'nothing was done');
  const acts = recorded.flatMap(({ number }) => {
    const unsafe = run.mets.get(number)?.unsafe;
    return unsafe === undefined || slips.has(number) ? [] : [{ number, unsafe }];
  });
  for (const { number, unsafe } of acts)
    lose('safety', unsafe.grave ? marking.safety : COSTS.spoilt * marking.safety, number, unsafe.words);
  const grave = acts.filter(({ unsafe }) => unsafe.grave);
  let total = (Object.keys(marking) as MarkItem[]).reduce((sum, item) => sum + got(item), 0);
  const items = Object.fromEntries(
    (Object.keys(marking) as MarkItem[]).map((item) => [item, { of: marking[item], got: tenths(got(item)) }]),
  ) as Marking;
  if (grave.length > 0) {
    const cap = Math.max(0, CAP.first - CAP.further * (grave.length - 1));
    if (total > cap) {
      losses.push({
        item: 'safety',
        marks: total - cap,
        event: words(grave[0]!.number),
        why: `a grave unsafe act: no more than ${cap} marks in all`,
      });
      total = cap;
    }
  }

  const begun = recorded.find(({ event }) => event.type === 'exercise')?.event;
  const entry = begun?.type === 'exercise' ? begun : undefined;
  return {
    exercise: exercise.id,
    attempt: entry?.attempt ?? 1,
    student: entry?.student ?? run.case.concern.technician ?? '',
    total: tenths(total),
    items,
    losses: losses.map((loss) => ({ ...loss, marks: tenths(loss.marks) })),
    choices,
    minutes: tenths(spent.minutes),
    money: Math.round(100 * spent.money) / 100,
    budget,
    par: { minutes: tenths(par.minutes), money: par.money, tests: par.tests },
    cured,
    closed: run.case.closed,
    truth: exercise.faults.map(
      ({ fault, comesAndGoes }) =>
        `${fault.label}${comesAndGoes ? ', comes and goes' : ''} (${fault.repair.how})`,
    ),
  };

  function lastRepair(): number | undefined {
    return counted.findLast(({ event }) => event.type === 'did' && isRepair(event.action))?.number;
  }

  function popsAgain(number: number): boolean {
    return (run.mets.get(number)?.notices ?? []).some((notice) =>
      notice.startsWith('The fuse just fitted blows'),
    );
  }

  /** Full marks inside the budget, none at twice of it. The dearest event is named. */
  function over(what: 'minutes' | 'money', part: number): void {
    const limit = Math.max(budget[what], 0.1);
    const excess = Math.min(1, spent[what] / limit - 1);
    if (excess <= 0) return;
    const dearest = [...ledger].sort((a, b) => b[what] - a[what] || a.number - b.number)[0]!;
    lose(
      'economy',
      part * marking.economy * excess,
      dearest.number,
      `${round(spent[what])} ${what === 'minutes' ? 'minutes' : 'in money'} of ${round(limit)}; this step alone took ${round(dearest[what])}`,
    );
  }
}

function choiceWords({ kind, best, value, bits, score }: Choice): string {
  if (best === undefined)
    return score > 0
      ? `${Math.round(100 * score)} % of what the likeliest repair promised`
      : `repaired on ${Math.round(100 * value)} % of the suspicion, where a look or a test was due`;
  const own = `${figure(bits)} bit expected, ${figure(value)} a minute`;
  return `${kind === 'repair' ? 'repaired where a test was due: ' : ''}${own}; best was ${best.line}: ${figure(best.bits)} bit, ${figure(best.value)} a minute`;
}

function figure(value: number): string {
  return value.toFixed(2);
}

function round(value: number): string {
  return String(Math.round(10 * value) / 10);
}

function tenths(value: number): number {
  return Math.round(10 * value) / 10;
}
