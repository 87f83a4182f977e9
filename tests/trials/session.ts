/**
 * One simulated session from complaint to repair: a hidden fault, tests chosen by the program, the leading group repaired, the
 * failed condition repeated. Everything comes from the seed.
 */
import { drivenSetUps, gather } from '../../src/diagnosis/evidence.js';
import type { Event, Sight } from '../../src/session/events.js';
import { foldCase } from '../../src/session/fold.js';
import type { SetUp } from '../../src/session/setup.js';
import { atRest, sameSetUp } from '../../src/session/setup.js';
import type { Diagnosis, Suspect } from '../../src/diagnosis/diagnosis-types.js';
import { canBlow } from '../../src/diagnosis/faults.js';
import { abnormalFindings, judgeFindings } from '../../src/diagnosis/senses.js';
import { isGoodSight } from '../../src/diagnosis/good-sights.js';
import { sightBand, WORDS } from '../../src/diagnosis/sights.js';
import { proveRepair } from '../../src/diagnosis/proof-of-repair.js';
import { judge } from '../../src/diagnosis/verdict.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import type { Alteration } from '../../src/exercise/alterations.js';
import { ALTERATIONS, drawAlteration } from '../../src/exercise/alterations.js';
import { drawFaults, type HiddenFault } from '../../src/exercise/hidden-faults.js';
import { MisreadCar } from '../../src/exercise/misreads.js';
import type { Physics } from '../../src/exercise/physics.js';
import type { Draw } from '../../src/exercise/random.js';
import { pick, random } from '../../src/exercise/random.js';
import { sourceLaw } from '../../src/network/conditions.js';
import { SimulatedCar } from '../../src/exercise/simulated-car.js';
import { actionsBetween } from '../../src/planning/changes.js';
import { advise, attemptOf, suggest } from '../../src/planning/next.js';
import type { Suggestion } from '../../src/planning/suggestion.js';
import type { Case } from '../../src/session/case.js';
import { dangerOf } from '../planning/dangerous-pairs.js';
import { workedMilliseconds } from './clock.js';
import type { Complaint, Different } from '../../src/exercise/complaint.js';
import { complaints } from '../../src/exercise/complaint.js';
import { Mechanic } from './mechanic.js';
import { renewal, repairAction } from '../../src/exercise/repair-action.js';

export type Kind = 'single' | 'double' | 'misread' | 'outside';

/** `KNOWNGOOD_PATIENCE=2`: somebody who gives up after twice as much. */
const PATIENCE = Number(process.env['KNOWNGOOD_PATIENCE'] ?? 1);
/** For each fault: findings after which a person gives up, the same after each repair that did not cure, and repairs. */
const MOST_FINDINGS = 40 * PATIENCE;
const MOST_MORE_FINDINGS = 12 * PATIENCE;
const MOST_REPAIRS = 4 * PATIENCE;
/** Share of rated volts from which on nobody takes half a light, or a slow motor, for how it should be. */
const FULL = 0.9;
/** Other failing conditions that a person tries out at the beginning and repeats at the end. */
const MOST_OTHERS = 4;
/** Times that readings which do not fit are taken again. */
const MOST_RETAKEN = 2;
/** Times that somebody looks whether a complaint that has gone is back. */
const MOST_DRIVES = 40;
const MISREAD = 0.1;
const CORNERS = 0.25;
/** Set-ups in which the owner drove before, enough for a short to blow its fuse. */
const DRIVEN = 8;

/** What the program made of the session at some moment, and how the vehicle really was. */
export interface Moment {
  readonly case: Case;
  readonly diagnosis: Diagnosis;
  readonly hidden: SimulatedCar['hidden'];
  readonly openFuses: number;
}

export interface Session {
  readonly seed: number;
  readonly kind: Kind;
  readonly truth: string;
  readonly car: SimulatedCar;
  readonly mechanic: Mechanic;
  /** After the complaint alone. */
  readonly complaint: Moment;
  /** When the program suggested nothing more, before any repair. */
  readonly stopped: Moment;
  /** The same before each of the repairs, the first one included. */
  readonly stops: readonly Moment[];
  readonly final: Diagnosis;
  /** Reading that rules the truth out, if one does: before the repairs, after each, and at the end. */
  readonly fell: string | undefined;
  readonly findings: number;
  readonly minutes: number;
  readonly repairs: number;
  /** What the vehicle would still be complained about. */
  readonly left: readonly Complaint[];
  readonly misreads: number;
  /** Suggestions that the hand-reviewed list calls dangerous, with why. */
  readonly dangers: readonly string[];
  readonly alteration: Alteration | undefined;
  readonly spent: { readonly diagnose: number; readonly car: number; readonly suggest: number };
}

/**
 * Undefined when this vehicle shows nothing that a person would complain about.
 * @param given what is wrong with it; left out: drawn
 */
export async function runSession(
  bench: Workbench,
  physics: Physics,
  seed: number,
  kind: Kind,
  given?: readonly HiddenFault[],
): Promise<Session | undefined> {
  const session = new Running(bench, physics, seed, kind, given);
  return (await session.complain()) ? session.run() : undefined;
}

/** The dangerous ones of these suggestions. */
function dangersOf(bench: Workbench, suggested: readonly Suggestion[]): string[] {
  return suggested.flatMap(({ reading, setUp, actions, line }) => {
    const wiggle = actions.flatMap((action) => (action.do === 'wiggle' ? [action] : []))[0];
    const danger = dangerOf(bench, { reading, setUp, wiggle });
    return danger === undefined ? [] : [`${line}: ${danger}`];
  });
}

/** Everybody sees it, and by a word that does not go for a healthy vehicle too. */
function isTold(bench: Workbench, { setUp, load, good, usual, has }: Complaint): boolean {
  const { kind } = bench.network.loads.get(load)!;
  const words = WORDS[kind];
  if (good === 'last') return has > sightBand(kind, words.at(-1)!).high;
  if (has >= sightBand(kind, words[0]!).low) return false;
  const said = words.filter((word) => sightBand(kind, word).low <= has && has <= sightBand(kind, word).high);
  return usual >= FULL || said.every((word) => isOutOfOrder(bench, setUp, load, word));
}

/** Would no healthy vehicle be called that? */
function isOutOfOrder(bench: Workbench, setUp: SetUp, load: string, value: Sight): boolean {
  const { circuit } = bench;
  const events: Event[] = [
    ...actionsBetween(atRest(circuit), setUp).map((action) => ({ type: 'did', action }) as const),
    { type: 'found', reading: { kind: 'load', load, value } },
  ];
  const session = foldCase(
    circuit,
    events.map((event, i) => ({ number: i + 1, at: '', event })),
  );
  return abnormalFindings(judgeFindings(bench, gather(bench, session))).size > 0;
}

async function driveAbout(bench: Workbench, car: SimulatedCar, draw: Draw): Promise<void> {
  const driven = drivenSetUps(bench);
  for (let i = 0; i < DRIVEN; i++) await car.visit(pick(draw, driven));
}

/** Of each fault that does not show in the first complaint, one place where it does. */
function withoutAlike(first: Complaint, own: readonly (readonly Complaint[])[]): Complaint[] {
  return own
    .filter((shown) => !shown.some(({ load, setUp }) => load === first.load && setUp === first.setUp))
    .map((shown) => shown[0]!);
}

class Running {
  private readonly draw: Draw;
  private readonly car: SimulatedCar;
  private readonly person: MisreadCar;
  private readonly mechanic: Mechanic;
  private readonly alteration: Alteration | undefined;
  private complaint: Complaint | undefined;
  /** Other places where the vehicle may misbehave; a person works the controls and sees them. */
  private others: readonly Complaint[] = [];
  private minutes = 0;
  private misreads = 0;
  private suggesting = 0;
  /** Repairs done, in words. */
  private readonly repaired = new Set<string>();
  private readonly dangers: string[] = [];

  constructor(
    private readonly bench: Workbench,
    private readonly physics: Physics,
    private readonly seed: number,
    private readonly kind: Kind,
    given?: readonly HiddenFault[],
  ) {
    this.draw = random(seed);
    this.alteration =
      kind === 'outside' ? drawAlteration(bench, this.draw, pick(this.draw, ALTERATIONS)) : undefined;
    const count = kind === 'outside' ? 0 : kind === 'double' ? 2 : 1;
    const faults = given ?? drawFaults(bench.faults, count, this.draw);
    const corners = this.draw() < CORNERS;
    this.car = new SimulatedCar(bench, physics, this.draw, faults, corners, this.alteration);
    this.person = new MisreadCar(bench, this.car, this.draw, 0);
    this.mechanic = new Mechanic(bench, this.person, this.draw);
  }

  /** Finds what the owner complains about and sees it; false when there is nothing to complain about. */
  async complain(): Promise<boolean> {
    const { bench, car, draw, mechanic, alteration } = this;
    if (this.kind === 'outside' && alteration === undefined) return false;
    if (alteration !== undefined || car.hidden.some(({ fault }) => canBlow(fault)))
      await driveAbout(bench, car, draw);
    const places = complaints(bench, this.difference());
    // Of two faults each has something of its own to show, or there would be only one to find.
    const own: Complaint[][] = [];
    for (const fault of car.hidden.length < 2 ? [] : car.hidden) {
      const shown = complaints(bench, await this.alone(fault)).filter((place) => isTold(bench, place));
      if (shown.length === 0) return false;
      own.push(shown);
    }
    for (let tries = 0; tries < 3 && places.length > 0; tries++) {
      const [place] = places.splice(Math.floor(draw() * places.length), 1);
      await mechanic.moveTo(place!.setUp);
      if (await this.isGood(place!, await mechanic.read({ kind: 'load', load: place!.load, value: 'off' })))
        continue;
      this.complaint = place;
      this.others = [...withoutAlike(place!, own), ...places];
      this.person.share = this.kind === 'misread' ? MISREAD : 0;
      return true;
    }
    return false;
  }

  /** A vehicle with one of the faults only, and the fuses that it blows alone. */
  private async alone({ fault, severity, comesAndGoes }: HiddenFault): Promise<Different> {
    const { bench, physics } = this;
    const draw = random(this.seed);
    const car = new SimulatedCar(bench, physics, draw, [{ fault, severity, comesAndGoes }], false);
    if (canBlow(fault)) await driveAbout(bench, car, draw);
    return { faults: [fault.apply(severity)], added: [], absent: [], blown: car.openFuses };
  }

  private difference(): Different {
    const { car, alteration } = this;
    return {
      faults: [
        ...car.hidden.map(({ fault, severity }) => fault.apply(severity)),
        ...(alteration?.faults ?? []),
      ],
      added: alteration?.added ?? [],
      absent: alteration?.absent ?? [],
      blown: car.openFuses,
    };
  }

  /** Pins the symptom down: what else fails or works in that condition, and where else something misbehaves. */
  private async lookAround(): Promise<void> {
    const { mechanic, bench } = this;
    const { setUp, load } = this.complaint!;
    for (const other of bench.network.loads.keys())
      if (other !== load) await this.read({ kind: 'load', load: other, value: 'off' });
    for (const place of this.others.slice(0, MOST_OTHERS)) {
      await mechanic.moveTo(place.setUp);
      await this.read({ kind: 'load', load: place.load, value: 'off' });
    }
    await mechanic.moveTo(setUp);
  }

  /**
   * Repeats the failed conditions, the first complaint first; true when all of them are good. Where one is not, whatever else failed there
   * is looked at again too, as the program asks.
   */
  private async allGood(): Promise<boolean> {
    for (const place of [this.complaint!, ...this.others.slice(0, MOST_OTHERS)]) {
      await this.mechanic.moveTo(place.setUp);
      if (
        await this.isGood(place, await this.mechanic.read({ kind: 'load', load: place.load, value: 'off' }))
      )
        continue;
      this.complaint = place;
      for (const load of this.notRepeated(place.setUp)) await this.read({ kind: 'load', load, value: 'off' });
      return false;
    }
    return true;
  }

  /** Loads that failed in this set-up and were not looked at since the last repair. */
  private notRepeated(setUp: SetUp): string[] {
    const { bench, mechanic } = this;
    const session = mechanic.case;
    const abnormal = abnormalFindings(judgeFindings(bench, gather(bench, session)));
    return proveRepair(session.timeline, abnormal).conditions.flatMap(({ again, finding, load }) =>
      again === 'not repeated' && sameSetUp(finding.setUp, setUp) ? [load] : [],
    );
  }

  async run(): Promise<Session> {
    const { mechanic, car, seed, kind, bench } = this;
    const complaint = this.moment;
    const count = Math.max(1, car.hidden.length);
    await this.lookAround();
    await this.investigate(MOST_FINDINGS * count);
    const stopped = this.moment;
    const { hidden } = stopped;
    let fell = this.fell(hidden);
    const findings = mechanic.findings;
    const { minutes } = this;
    let repairs = 0;
    const stops: Moment[] = [stopped];
    while (repairs < MOST_REPAIRS * count && mechanic.diagnosis.groups.length > 0) {
      await this.repair(mechanic.diagnosis.groups[this.nextRepair()]!.suspects[0]!);
      repairs += 1;
      const before = this.complaint;
      if (await this.allGood()) break;
      // With its complaint cured, what else fails is looked for as from the beginning.
      const isSame = this.complaint === before;
      await this.investigate(isSame ? MOST_MORE_FINDINGS * count : MOST_FINDINGS);
      stops.push(this.moment);
      fell ??= this.fell(hidden);
    }
    return {
      seed,
      kind,
      truth: this.truth(stopped.hidden),
      car,
      mechanic,
      complaint,
      stopped,
      stops,
      final: mechanic.diagnosis,
      fell: fell ?? this.fell(hidden),
      findings,
      minutes,
      repairs,
      left: complaints(bench, this.difference()),
      misreads: this.misreads,
      dangers: this.dangers,
      alteration: this.alteration,
      spent: { ...mechanic.spent, suggest: this.suggesting },
    };
  }

  private get moment(): Moment {
    const { mechanic, car } = this;
    return {
      case: mechanic.case,
      diagnosis: mechanic.diagnosis,
      hidden: car.hidden,
      openFuses: car.openFuses,
    };
  }

  /** Does what the program suggests until it suggests nothing. */
  private async investigate(more: number): Promise<void> {
    const { mechanic, bench } = this;
    const most = mechanic.findings + more;
    for (let retaken = 0; mechanic.findings < most;) {
      const { diagnosis } = mechanic;
      if (!diagnosis.fits && retaken < MOST_RETAKEN) {
        retaken += 1;
        await this.retake(diagnosis);
        continue;
      }
      const started = workedMilliseconds();
      const suggested = suggest(bench, mechanic.case, diagnosis);
      this.suggesting += workedMilliseconds() - started;
      this.dangers.push(...dangersOf(bench, suggested));
      const [best] = suggested;
      if (best === undefined) {
        if (!diagnosis.gone || !(await this.provoke())) return;
        continue;
      }
      for (const action of best.actions) await mechanic.act(action);
      await this.lookAgain();
      if ((await this.read(best.reading)) === undefined)
        mechanic.record({ type: 'skipped', test: best.line, why: 'cannot tell' });
      this.minutes += best.minutes;
    }
  }

  private async read(reading: Parameters<Mechanic['read']>[0]): Promise<number | undefined> {
    const number = await this.mechanic.read(reading);
    if (this.person.last !== undefined) this.misreads += 1;
    return number;
  }

  /** A fault that comes and goes may do so now; a person sees that by the load they watch, and writes it down. */
  private async lookAgain(): Promise<void> {
    const { car, complaint, mechanic } = this;
    if (complaint === undefined || !sameSetUp(mechanic.setUp, complaint.setUp)) return;
    const before = car.hidden;
    if (!car.wait()) return;
    const gone = car.hidden.some(({ away }) => away);
    const answer = await car.answer(mechanic.setUp, { kind: 'load', load: complaint.load, value: 'off' });
    const { kind } = this.bench.network.loads.get(complaint.load)!;
    const words = WORDS[kind];
    const good = complaint.good === 'first' ? words[0] : words.at(-1);
    const word = answer?.reading.kind === 'load' ? answer.reading.value : undefined;
    // Where the eye cannot tell, nobody would know that the complaint had gone: leave it as it was.
    if ((word === good) !== gone) car.unwait(before);
    else mechanic.record({ type: 'found', reading: answer!.reading });
  }

  /** Drives about until a complaint that has gone is there again; false when that does not bring it back. */
  private async provoke(): Promise<boolean> {
    const { car, complaint, mechanic } = this;
    await mechanic.moveTo(complaint!.setUp);
    for (let drives = 0; drives < MOST_DRIVES; drives++) {
      const before = mechanic.recorded.length;
      await this.lookAgain();
      if (mechanic.recorded.length > before && !car.hidden.some(({ away }) => away)) return true;
    }
    return false;
  }

  /** Takes readings that do not fit once more, in the set-up in which they were taken. */
  private async retake(diagnosis: Diagnosis): Promise<void> {
    const wrong = diagnosis.open.find(({ what }) => what === 'a reading is wrong')?.findings ?? [];
    for (const number of wrong.slice(0, 3)) {
      const step = this.mechanic.case.timeline.find(
        (candidate) => candidate.kind === 'finding' && candidate.finding.number === number,
      );
      if (step?.kind !== 'finding') continue;
      this.mechanic.record({ type: 'undone', number });
      await this.mechanic.moveTo(step.finding.setUp);
      await this.read(step.finding.reading);
      this.minutes += 1;
    }
  }

  /**
   * Number of the group to repair: what the program advises; with the patience for its tests gone, the likeliest for its minutes. Nobody
   * does the same once more while something likelier is untried.
   */
  private nextRepair(): number {
    const { bench, mechanic } = this;
    const { diagnosis } = mechanic;
    const { groups } = diagnosis;
    const worth = groups.map((_, group) => {
      const { chance, minutes } = attemptOf(bench, diagnosis, group);
      return chance / minutes;
    });
    const advised =
      advise(bench, mechanic.case, diagnosis).attempt?.group ?? worth.indexOf(Math.max(...worth));
    const { how } = groups[advised]!.repair;
    const chosen = this.repaired.has(how) && !this.repaired.has(groups[0]!.repair.how) ? 0 : advised;
    this.repaired.add(groups[chosen]!.repair.how);
    return chosen;
  }

  private async repair(suspect: Suspect): Promise<void> {
    const { mechanic, bench, car } = this;
    const byId = new Map(bench.faults.map((fault) => [fault.id, fault]));
    for (const { id } of suspect.faults) await mechanic.act(repairAction(bench, byId.get(id)!));
    for (const [i, element] of bench.network.fuses.entries()) {
      const { part } = bench.network.elements[element]!;
      if ((car.openFuses >>> i) & 1) await mechanic.act(renewal(bench, part));
    }
  }

  /**
   * As it should be. On a weak battery that is what a healthy vehicle would do there too; a lamp that is pulsed to half its light is dim
   * by design, and good as any healthy vehicle may be.
   */
  private async isGood(complaint: Complaint, number: number | undefined): Promise<boolean> {
    if (number === undefined) return false;
    const { mechanic, bench } = this;
    const reading = mechanic.reading(number);
    if (reading.kind !== 'load') return false;
    const words = WORDS[bench.network.loads.get(reading.load)!.kind];
    if (reading.value === (complaint.good === 'first' ? words[0] : words.at(-1))) return true;
    if (complaint.good === 'first' && complaint.usual >= FULL) {
      if (isGoodSight(bench, { reading, setUp: mechanic.setUp })) return true;
      const { low, high } = sightBand(bench.network.loads.get(reading.load)!.kind, reading.value);
      const usual = complaint.usual * (await this.charge());
      return low <= usual && usual <= high;
    }
    return !abnormalFindings(judgeFindings(bench, gather(bench, mechanic.case))).has(number);
  }

  /** Volts at the posts against what they are thought to be. */
  private async charge(): Promise<number> {
    const { bench, car, mechanic } = this;
    const posts = { kind: 'volts', red: 'bat+', black: 'bat-', value: { value: 0, step: 0.01 } } as const;
    const answer = await car.answer(mechanic.setUp, posts);
    const law = sourceLaw(bench.network, bench.circuit.nominalVolts, mechanic.setUp.engine);
    return answer?.reading.kind === 'volts' && law.kind === 'source'
      ? answer.reading.value.value / law.volts
      : 1;
  }

  /** The finding by which what was wrong at first is ruled out, if it is. Repairs done since are part of the story. */
  private fell(hidden: SimulatedCar['hidden']): string | undefined {
    const { bench, mechanic } = this;
    if (hidden.length === 0) return undefined;
    const evidence = gather(bench, mechanic.case);
    const faults = hidden.map(({ fault }) => fault);
    const comesAndGoes = hidden.some((fault) => fault.comesAndGoes);
    const { fall } = judge(bench, faults, evidence, comesAndGoes ? 'comes and goes' : 'steady');
    if (fall === undefined) return undefined;
    const { observation, low, high } = fall;
    return `ruled out by finding ${observation.finding} (${observation.kind}): predicted ${low} to ${high}, read ${observation.low} to ${observation.high}`;
  }

  private truth(hidden: SimulatedCar['hidden']): string {
    if (this.alteration !== undefined) return this.alteration.words;
    return hidden
      .map(
        ({ fault, now, comesAndGoes }) =>
          `${fault.id} at ${now.toPrecision(4)} ${fault.scale.unit}${comesAndGoes ? ', comes and goes' : ''}`,
      )
      .join(' + ');
  }
}
