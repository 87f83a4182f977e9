/** The tests there are: the failed condition, or one change from it, at every point a person can reach. */
import type { Circuit, Part, PointId } from '../circuit/circuit.js';
import { terminalsOf } from '../circuit/circuit.js';
import { failures } from '../diagnosis/proof-of-cause.js';
import { sameSetUp } from '../diagnosis/evidence.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Case, Finding } from '../session/case.js';
import type { Reading } from '../session/events.js';
import type { SetUp } from '../session/setup.js';
import { atRest } from '../session/setup.js';

export interface Candidate {
  /** Grammar line without the reading. */
  readonly line: string;
  readonly words: string;
  readonly setUp: SetUp;
  /** The reading with a blank value. */
  readonly reading: Reading;
  readonly minutes: number;
  /** Something is unplugged, taken out or bridged for it. */
  readonly disturbs: boolean;
}

/** Minutes of the bare test, at an open place; common practice, no source. */
const MINUTES = { look: 0.3, probe: 1, jumper: 2, takeOut: 1.5, helper: 1 } as const;

const BLANK = { value: 0, step: 0.01 };

/** Every test worth weighing now. Never one at a point that must not be probed, at an airbag, or with a jumper that moves something. */
export function candidates(bench: Workbench, session: Case): Candidate[] {
  const findings = session.timeline.flatMap((step) => (step.kind === 'finding' ? [step.finding] : []));
  const failed = failures(bench, findings);
  const condition =
    failed.at(-1)?.setUp ?? findings.find((finding) => finding.reading.kind === 'load')?.setUp;
  if (condition === undefined) return [];
  const opened = openedPlaces(bench, session);
  const all = [
    ...glances(bench, findings, condition),
    ...voltages(bench, condition, opened),
    ...bridges(bench, condition, opened, failed),
    ...itemsOut(bench, condition, opened),
  ];
  const helped = all.map((candidate) => ({
    ...candidate,
    minutes: candidate.minutes + helperMinutes(bench.circuit, candidate.setUp),
  }));
  return helped.filter(
    (candidate) =>
      !isDone(findings, candidate) && !session.skipped.some(({ test }) => test === candidate.line),
  );
}

/** Other loads, in the failed condition and with one control changed: these cost a glance. */
function glances(bench: Workbench, findings: readonly Finding[], condition: SetUp): Candidate[] {
  const rest = atRest(bench.circuit);
  const changed = [...bench.circuit.controls.values()].flatMap((control) =>
    control.positions.map((position) => ({
      ...condition,
      controls: new Map(condition.controls).set(control.id, position),
    })),
  );
  const alone = [...bench.circuit.controls.values()].flatMap((control) =>
    control.risk === undefined
      ? control.positions
          .slice(1)
          .map((position) => ({ ...rest, controls: new Map(rest.controls).set(control.id, position) }))
      : [],
  );
  const setUps = [condition, ...changed, ...alone];
  return [...bench.network.loads.values()].flatMap((load) =>
    setUps
      .filter((setUp, i) => setUps.findIndex((other) => sameSetUp(other, setUp)) === i)
      .map((setUp): Candidate => {
        const part = bench.circuit.parts.get(load.part)!;
        const verb = load.kind === 'lamp' ? 'look at' : load.kind === 'motor' ? 'watch' : 'listen to';
        return {
          line: load.id,
          words: `${verb} ${load.id} (${part.label})`,
          setUp,
          reading: { kind: 'load', load: load.id, value: 'off' },
          minutes: MINUTES.look + (findings.length === 0 ? 0 : 0.2),
          disturbs: false,
        };
      }),
  );
}

function voltages(bench: Workbench, condition: SetUp, opened: ReadonlySet<string>): Candidate[] {
  const points = [...bench.circuit.parts.values()].flatMap((part) =>
    pointsAt(part).map((point) => ({ point, part })),
  );
  return points
    .filter(({ point, part }) => bench.network.points.has(point) && isReachable(bench.circuit, part, point))
    .map(({ point, part }) => ({
      line: `volts ${point}`,
      words: `volts, red ${point} (${part.label}), black battery negative`,
      setUp: condition,
      reading: { kind: 'volts', red: point, black: 'bat-', value: BLANK },
      minutes: MINUTES.probe + openMinutes(bench.circuit, part.place, opened),
      disturbs: false,
    }));
}

function pointsAt(part: Part): PointId[] {
  if (part.type === 'connector')
    return part.pins.flatMap((pin) => [`${part.id}.${pin}h`, `${part.id}.${pin}c`]);
  if (part.type === 'battery') return ['bat+'];
  if (part.type === 'ground' || part.type === 'splice') return [part.id];
  return terminalsOf(part).map((terminal) => `${part.id}.${terminal}`);
}

/** A jumper across a switch, watching a load that failed. Not where it would start, crank, pump or turn something. */
function bridges(
  bench: Workbench,
  condition: SetUp,
  opened: ReadonlySet<string>,
  failed: readonly Finding[],
): Candidate[] {
  const watched = failed.find((finding) => sameSetUp(finding.setUp, condition));
  if (watched?.reading.kind !== 'load') return [];
  const { reading } = watched;
  if (bench.network.loads.get(reading.load)!.kind === 'motor') return [];
  return [...bench.circuit.parts.values()].flatMap((part) => {
    if (part.type !== 'switch' || !isReachable(bench.circuit, part, part.id)) return [];
    if (bench.circuit.controls.get(part.control)?.risk !== undefined) return [];
    return part.contacts.map(({ between: [from, to] }): Candidate => {
      const ends = [`${part.id}.${from}`, `${part.id}.${to}`] as const;
      return {
        line: reading.load,
        words: `fused jumper from ${ends[0]} to ${ends[1]} (across ${part.label}), then watch ${reading.load}`,
        setUp: { ...condition, jumpers: [...condition.jumpers, ends] },
        reading: { kind: 'load', load: reading.load, value: 'off' },
        minutes: MINUTES.jumper + openMinutes(bench.circuit, part.place, opened),
        disturbs: true,
      };
    });
  });
}

/** Fuses and lamps taken out and measured on the bench: ohms across the item's own terminals. */
function itemsOut(bench: Workbench, condition: SetUp, opened: ReadonlySet<string>): Candidate[] {
  const rest = atRest(bench.circuit);
  return [...bench.circuit.parts.values()].flatMap((part) => {
    if ((part.type !== 'fuse' && part.type !== 'lamp') || !isReachable(bench.circuit, part, part.id))
      return [];
    const pairs =
      part.type === 'fuse' ? [['1', '2']] : part.filaments.map((filament) => [filament.terminal, '31']);
    return pairs.map(([from, to]): Candidate => {
      const [red, black] = [`${part.id}.${from}i`, `${part.id}.${to}i`];
      return {
        line: `ohms ${red} ${black}`,
        words: `take ${part.id} (${part.label}) out; ohms across its terminals ${from} and ${to}`,
        setUp: { ...rest, out: new Set([...condition.out, part.id]) },
        reading: { kind: 'ohms', red, black, value: BLANK },
        minutes: MINUTES.takeOut + openMinutes(bench.circuit, part.place, opened),
        disturbs: true,
      };
    });
  });
}

function isReachable(circuit: Circuit, part: Part, point: string): boolean {
  if (part.neverProbe || circuit.neverProbe.has(part.id) || circuit.neverProbe.has(point)) return false;
  return circuit.places.get(part.place)?.hazard !== 'airbag';
}

function openMinutes(circuit: Circuit, place: string, opened: ReadonlySet<string>): number {
  return opened.has(place) ? 0 : (circuit.places.get(place)?.minutes ?? 0);
}

/** One person cannot hold such a control and probe elsewhere. */
function helperMinutes(circuit: Circuit, setUp: SetUp): number {
  const held = [...circuit.controls.values()].some(
    (control) => control.helper && setUp.controls.get(control.id) !== control.positions[0],
  );
  return held ? MINUTES.helper : 0;
}

/** Places where something was probed or done already. */
function openedPlaces(bench: Workbench, session: Case): ReadonlySet<string> {
  const names = session.timeline.flatMap((step) => {
    if (step.kind === 'finding') {
      const { reading } = step.finding;
      return 'red' in reading ? [reading.red, reading.black] : 'at' in reading ? [reading.at] : [];
    }
    const { action } = step;
    if ('connector' in action) return [action.connector];
    if ('part' in action) return [action.part];
    if ('at' in action) return [action.at];
    return 'between' in action ? [...action.between] : [];
  });
  const places = names.flatMap((name) => bench.circuit.parts.get(name.split('.')[0]!)?.place ?? []);
  return new Set(places);
}

/** The same reading was taken in the same set-up. Points on one node are the same point. */
function isDone(findings: readonly Finding[], candidate: Candidate): boolean {
  return findings.some(
    (finding) =>
      sameSetUp(finding.setUp, candidate.setUp) && sameQuestion(finding.reading, candidate.reading),
  );
}

function sameQuestion(a: Reading, b: Reading): boolean {
  if (a.kind === 'load' && b.kind === 'load') return a.load === b.load;
  if ((a.kind === 'volts' && b.kind === 'volts') || (a.kind === 'ohms' && b.kind === 'ohms'))
    return a.red === b.red && a.black === b.black;
  return false;
}
