/**
 * The session's timeline as the reasoner walks it: readings turned into questions, actions into what they touch, and the moments
 * at which the complaint went away or came back. Made once per diagnosis, shared by all hypotheses.
 */
import { sourceLaw } from '../network/conditions.js';
import { edit, touches, isRepair } from '../session/actions.js';
import type { Case, Finding } from '../session/case.js';
import type { Action, Look } from '../session/events.js';
import type { SetUp } from '../session/setup.js';
import { atRest, KNOWN_GOOD, sameSetUp } from '../session/setup.js';
import { drawsLampCurrent } from '../session/test-lamp.js';
import { healthyRange, isAmiss } from './amiss.js';
import type { Fault } from './faults.js';
import { isMendedBy } from './mended-by.js';
import { movedFuses } from './fitted.js';
import { canBlow } from './faults.js';
import type { Grid } from './grid.js';
import { coordinate, makeGrid, placesOf } from './grid.js';
import {
  failsAgain,
  hasTurned,
  isWellAgain,
  stillFailing,
  symptomAt,
  turnedFirst,
} from './complaint-seen.js';
import { contrast } from './contrast.js';
import type { Change, Evidence, EvidenceStep, Symptom, Touch } from './evidence-types.js';
import { besideClicks, isHeardOtherwise } from './heard.js';
import type { Observation } from './observe.js';
import { attachedBy, node } from './attached.js';
import { observe } from './observe.js';
import type { Question } from './question.js';
import { blownBy } from './restrict.js';
import { batteryAfter } from './source-for.js';
import type { Workbench } from './workbench.js';

export function gather(bench: Workbench, session: Case): Evidence {
  const steps: EvidenceStep[] = [];
  const earlier: Finding[] = [];
  /** Findings since anything was touched or the complaint came or went: only these may be compared side by side. */
  let together: Finding[] = [];
  /** Those since any control was worked or a test lamp drew its current: no relay has moved, and no fuse blown, in between. */
  let unmoved: Finding[] = [];
  /** What was observed since anything at all was done: the relays still stand as they did. */
  let still: Observation[] = [];
  let standing = atRest(bench.circuit);
  const keys: string[] = [];
  let controls = standing.controls;
  let symptom: Symptom = 'present';
  /** How it was seen last: a repair alone brings nothing about. */
  let known: Symptom = 'present';
  /** Findings that no healthy vehicle would show, by number. */
  const amiss = new Set<number>();
  let wellAgain = false;
  /** The last looks at what fails still, as far as anybody knows. */
  let failing: readonly Finding[] = [];
  /** How many findings there were when anything but a control was last touched. */
  let touchedAfter = 0;
  const batteryLater = batteryAfter(bench, session.timeline);

  for (const step of turnedFirst(session.timeline)) {
    if (step.kind === 'action') {
      const before = standing;
      standing = edit(step.action, standing);
      steps.push(changeOf(bench, step.action, before, standing));
      keys.push(JSON.stringify([step.action, step.number]));
      still = [];
      if (step.action.do === 'operate') controls = standing.controls;
      else {
        together = [];
        touchedAfter = earlier.length;
      }
      unmoved = [];
      if (isRepair(step.action) && symptom === 'present') symptom = 'unsure';
      continue;
    }
    const { finding } = step;
    const operated = [...finding.setUp.controls].filter(
      ([control, position]) => controls.get(control) !== position,
    );
    for (const [control, position] of operated) {
      steps.push(changeOf(bench, { do: 'operate', control, position }, standing, undefined));
      keys.push(`${control} ${position}`);
    }
    controls = finding.setUp.controls;
    if (operated.length > 0) unmoved = [];
    if (operated.length > 0 || !sameSetUp(still[0]?.setUp ?? finding.setUp, finding.setUp)) still = [];
    const later = batteryLater.get(finding);
    const others = later === undefined ? earlier : [...earlier, later];
    const observed = observe(bench, finding, others);
    const seen = observed.filter(({ quantity }) => quantity.load !== undefined);
    const healthy = seen.map((one) => healthyRange(bench, one));
    if (seen.some((one, i) => isAmiss(healthy[i]!, one))) amiss.add(finding.number);
    const now = symptomAt(bench, finding, earlier, amiss, symptom);
    if (now !== 'absent') wellAgain = false;
    else wellAgain = isWellAgain(bench, finding, earlier, healthy) ?? wellAgain;
    const again = failsAgain(bench, finding, earlier, amiss);
    failing = stillFailing(failing, finding, earlier, touchedAfter);
    if (again || (amiss.has(finding.number) && finding.evidence !== 'told')) failing = [...failing, finding];
    const comesOrGoes = now === 'unsure' ? known === 'absent' : now !== known;
    if (comesOrGoes || hasTurned(finding, earlier)) {
      const seen = now === 'unsure' ? 'present' : now;
      steps.push(comesOrGoes ? { kind: 'symptom', now: seen, finding: finding.number } : { kind: 'turned' });
      keys.push(comesOrGoes ? seen : 'turned');
      together = [];
      still = [];
      known = now;
    }
    symptom = now;
    const rivals = together.filter((other) => sameSetUp(other.setUp, finding.setUp));
    if (isHeardOtherwise(still, observed)) still = [];
    const listened = besideClicks(finding.number, observed, still);
    for (const observation of [...listened, ...contrast(bench, finding, rivals, unmoved, others)]) {
      steps.push({ kind: 'observation', observation, symptom, again });
      keys.push(keyOf(observation, symptom));
    }
    if (finding.reading.kind === 'look') {
      const { at, value } = finding.reading;
      steps.push({
        kind: 'look',
        finding: finding.number,
        words: `${at} looks ${value}`,
        favours: lookFactor(at, value),
      });
      keys.push(`look ${at} ${value}`);
    }
    earlier.push(finding);
    if (drawsLampCurrent(finding.reading)) unmoved = [];
    together.push(finding);
    unmoved.push(finding);
    still.push(...observed);
  }
  return {
    steps,
    prefixes: prefixesOf(bench, keys),
    wellAgain: wellAgain && failing.length === 0,
    before: (grid) => blownBefore(bench, grid),
  };
}

function keyOf(observation: Observation, symptom: string): string {
  const { finding, added, present, source, pinned, quantity, low, high, hard, current, setUp } = observation;
  const { heard, moved } = observation;
  const fitted = [...setUp.fitted];
  return JSON.stringify([
    finding,
    added,
    present.join(''),
    source,
    pinned,
    quantity,
    low,
    high,
    hard,
    current,
    fitted,
    heard,
    moved,
    symptom,
  ]);
}

const prefixNames = new WeakMap<Workbench, Map<string, string>>();
/** Beginnings of sessions remembered by name; a name is only ever compared with names given since the last clearing. */
const MOST_PREFIXES = 20_000;
let given = 0;

function prefixesOf(bench: Workbench, keys: readonly string[]): string[] {
  let names = prefixNames.get(bench);
  if (names === undefined || names.size > MOST_PREFIXES) prefixNames.set(bench, (names = new Map()));
  let name = '';
  return ['', ...keys].map((key, i) => {
    if (i === 0) return name;
    const long = `${name} ${key}`;
    let short = names.get(long);
    if (short === undefined) names.set(long, (short = String(++given)));
    name = short;
    return name;
  });
}

/** The network with nothing attached but the jumpers of a set-up. */
export function standingOf(bench: Workbench, setUp: SetUp): Question {
  return {
    added: attachedBy(bench, setUp),
    setUp,
    unread: true,
    unpowered: undefined,
    present: bench.presence(setUp),
    source: sourceLaw(bench.network, bench.circuit.nominalVolts, setUp.engine),
    pinned: false,
    quantity: { a: node(bench, 'bat+'), b: node(bench, 'bat-'), scale: 1, magnitude: false, load: undefined },
  };
}

function changeOf(bench: Workbench, action: Action, before: SetUp, after: SetUp | undefined): Change {
  const names = touches(action, bench.circuit);
  // Working a switch moves its contacts, not the joints at its terminals.
  const touched: Touch =
    action.do === 'operate'
      ? (fault) => fault.owner === 'item' && names.has(fault.part)
      : (fault) =>
          names.has(fault.part) ||
          names.has(fault.site) ||
          [...names].some((name) => name.replace(/[hci]$/, '') === fault.site);
  const renewed = action.do === 'fit new' ? action.part : undefined;
  const closed = action.do === 'reset' ? action.part : renewed;
  // After a swap the item that goes into the bin is the one that sat there; a known-good one goes back, and the own one into the bin.
  const sat = renewed === undefined ? undefined : before.fitted.get(renewed);
  const binned = sat === undefined || sat === KNOWN_GOOD ? renewed : sat;
  const replaced: Touch | undefined =
    binned === undefined ? undefined : (fault) => fault.owner === 'item' && fault.part === binned;
  return {
    kind: 'change',
    touched: [touched],
    operated: action.do === 'operate',
    mends: isRepair(action) ? (fault) => isMendedBy(action, fault, binned) : undefined,
    replaced,
    newFuse: closed === undefined ? 0 : fuseMask(bench, closed),
    movedFuses:
      after === undefined || after.fitted === before.fitted
        ? undefined
        : (blown) => movedFuses(bench.network, before.fitted, after.fitted, blown),
    // An electronic fuse closes again when its supply was lost, which the drawing does not tell of every action.
    mayClose: bench.network.fuses.reduce((mask, index, bit) => {
      const { law } = bench.network.elements[index]!;
      return law.kind === 'fuse' && law.resets === 'electronic' ? mask | (1 << bit) : mask;
    }, 0),
    standing: after === undefined ? undefined : standingOf(bench, after),
  };
}

function fuseMask(bench: Workbench, part: string): number {
  return bench.network.fuses.reduce(
    (mask, index, bit) => (bench.network.elements[index]!.part === part ? mask | (1 << bit) : mask),
    0,
  );
}

/** How a part looks only ranks. The factors are common practice, no source. */
function lookFactor(at: string, look: Look): (faults: readonly Fault[]) => number {
  const site = at.replace(/[hci]$/, '');
  return (faults) => {
    const here = faults.filter((fault) => fault.part === at || fault.site === at || fault.site === site);
    if (here.length === 0) return 1;
    if (look === 'good') return 0.5;
    const speaks: Record<Exclude<Look, 'good'>, readonly Fault['kind'][]> = {
      blown: ['open'],
      broken: ['open', 'resistance'],
      burnt: ['resistance', 'short', 'open', 'stuck'],
      corroded: ['resistance'],
      loose: ['resistance'],
      wet: ['resistance', 'short'],
      'wrong part': ['wrong'],
    };
    return here.some((fault) => speaks[look].includes(fault.kind)) ? 10 : 1;
  };
}

/** More combinations than this are not worth trying all; then each control is worked alone, and beside all others. */
const MOST_COMBINATIONS = 36;

/** Set-ups the owner may have driven around in: every control worked, in all combinations where these are few. */
export function drivenSetUps(bench: Workbench): SetUp[] {
  const rest = atRest(bench.circuit);
  const controls = [...bench.circuit.controls.values()];
  const all = controls.reduce((product, control) => product * control.positions.length, 1);
  if (all <= MOST_COMBINATIONS) {
    return controls.reduce<SetUp[]>(
      (setUps, control) =>
        setUps.flatMap((setUp) =>
          control.positions.map((position) => edit({ do: 'operate', control: control.id, position }, setUp)),
        ),
      [rest],
    );
  }
  // What lies behind a key and a lever is fed only where both are worked.
  const worked = controls.reduce(
    (setUp, { id, positions }) => edit({ do: 'operate', control: id, position: positions.at(-1)! }, setUp),
    rest,
  );
  const varied = (from: SetUp) =>
    controls.flatMap(({ id, positions }) =>
      positions
        .filter((position) => from.controls.get(id) !== position)
        .map((position) => edit({ do: 'operate', control: id, position }, from)),
    );
  return [rest, ...varied(rest), worked, ...varied(worked)];
}

/** Of the nominal ones, with the engine running. */
const MOST_VOLTS = 1.25;

type Blows = { blown: number; places: number[] }[];

const remembered = new WeakMap<Workbench, Map<string, Blows>>();

function blownBefore(bench: Workbench, grid: Grid): Blows {
  const risky = grid.axes.filter((axis) => canBlow(axis.fault));
  if (risky.length === 0) return [];
  const alone = risky.map((axis) => blownAlone(bench, axis.fault));
  if (grid.axes.length === 1) return alone[0]!;
  // Several at once: every mask that one of them may have left, or two together, at any severity of the others. Only widens.
  const masks = new Set(alone.flat().map(({ blown }) => blown));
  // What touches another wire may feed a short through a fuse that neither reaches alone.
  if (risky.length > 1 && risky.some(({ fault }) => fault.kind === 'touching'))
    bench.network.fuses.forEach((_, bit) => masks.add(1 << bit));
  for (const first of [...masks]) for (const second of [...masks]) masks.add(first | second);
  const places = placesOf(
    grid,
    grid.axes.map(({ cells }) => [0, cells] as const),
  );
  return [...masks].map((blown) => ({ blown, places: placesThatBlow(bench, grid, blown, places) }));
}

/** Part of a fuse's rating that a leak has to take, at the most volts there are, to have mattered (our own figure, far on the safe side). */
const LEAST_LOAD = 0.02;

/** Of places at which these fuses are open those where the leak, if only a leak can have blown them, is no mere dampness. */
function placesThatBlow(bench: Workbench, grid: Grid, blown: number, places: readonly number[]): number[] {
  const [only, another] = grid.axes.flatMap((axis, i) => (canBlow(axis.fault) ? [i] : []));
  const { scale, apply } = grid.axes[only!]!.fault;
  if (another !== undefined || scale.unit !== 'ohm' || apply(1).kind !== 'shunt') return [...places];
  const { network, circuit } = bench;
  const amps = network.fuses.flatMap((index, bit) => {
    const { law } = network.elements[index]!;
    return law.kind === 'fuse' && ((blown >> bit) & 1) === 1 ? [law.amps] : [];
  });
  const most = (MOST_VOLTS * circuit.nominalVolts) / (LEAST_LOAD * Math.min(...amps));
  return places.filter((place) => scale.edges[coordinate(grid, place, only!)]! <= most);
}

function blownAlone(bench: Workbench, fault: Fault): Blows {
  let memo = remembered.get(bench);
  if (memo === undefined) remembered.set(bench, (memo = new Map()));
  let blows = memo.get(fault.id);
  if (blows === undefined) {
    // A fault held at one severity has the history of the whole one.
    const grid = makeGrid([bench.faults.find(({ id }) => id === fault.id) ?? fault]);
    blows = drivenSetUps(bench).flatMap((setUp) => blownBy(bench, grid, standingOf(bench, setUp)));
    memo.set(fault.id, blows);
  }
  return blows;
}
