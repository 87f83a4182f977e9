/** What the shape of an exercise file cannot say: names of the circuit, severities, complaints that the vehicle really gives. */
import type { Circuit } from '../circuit/circuit.js';
import { pointer, type Ranges } from '../circuit/diagnostic.js';
import { didYouMean } from '../circuit/nearest.js';
import type { Mistakes } from '../circuit/mistakes.js';
import { parseQuantity } from '../circuit/quantity.js';
import type { Fault } from '../diagnosis/faults.js';
import type { Workbench } from '../diagnosis/workbench.js';
import { MARKS, type Hint, type MarkItem, type Marking } from '../exercise/exercise.js';
import type { HiddenFault } from '../exercise/hidden-faults.js';
import { ExerciseVehicle } from '../exercise/vehicle.js';
import { complainedOf, toldEvents } from '../exercise/complaint-events.js';
import { parseLine } from '../session/parse-line.js';

/** As written: every value still text. */
export interface ExerciseDocument {
  readonly id: string;
  readonly title: string;
  readonly goal?: string;
  readonly circuit: string;
  readonly concern?: string;
  readonly complaint?: readonly string[];
  readonly faults?: readonly {
    readonly fault: string;
    readonly severity?: string;
    readonly 'comes and goes'?: string;
  }[];
  readonly draw?: { readonly seed: string; readonly difficulty: string };
  readonly seed?: string;
  readonly tools?: readonly string[];
  readonly places?: Readonly<Record<string, string>>;
  readonly costs?: Readonly<Record<string, string>>;
  readonly budget?: { readonly minutes?: string; readonly money?: string };
  readonly help?: string;
  readonly hints?: readonly { readonly text?: string; readonly minutes?: string; readonly money?: string }[];
  readonly marking?: Readonly<Partial<Record<MarkItem, string>>>;
}

export function hiddenOf(
  bench: Workbench,
  document: ExerciseDocument,
  ranges: Ranges,
  mistakes: Mistakes,
): readonly HiddenFault[] {
  const byId = new Map(bench.faults.map((fault) => [fault.id.toLowerCase(), fault]));
  return (document.faults ?? []).flatMap((written, index): HiddenFault[] => {
    const at = pointer('faults', index);
    const fault = byId.get(written.fault.toLowerCase());
    if (fault === undefined) {
      mistakes.error(
        'unknown-name',
        ranges.value(`${at}/fault`),
        `this circuit has no fault “${written.fault}”`,
        didYouMean(written.fault, sameSite(bench, written.fault), 'fault'),
      );
      return [];
    }
    const severity = severityOf(fault, written.severity);
    if (typeof severity !== 'number') {
      mistakes.error('bad-value', ranges.value(`${at}/severity`), severity.wrong, severity.mend);
      return [];
    }
    return [{ fault, severity, comesAndGoes: written['comes and goes'] === 'true' }];
  });
}

/** Faults to name in a mend: those of the same part where there are any. */
function sameSite(bench: Workbench, written: string): readonly string[] {
  const part = written.split(/[\s.:]/)[0]!.toLowerCase();
  const own = bench.faults.filter((fault) => fault.part.toLowerCase() === part).map(({ id }) => id);
  return own.length > 0 ? own : bench.faults.map(({ id }) => id);
}

function severityOf(
  fault: Fault,
  written: string | undefined,
): number | { readonly wrong: string; readonly mend: string } {
  const { unit, edges } = fault.scale;
  const [low, high] = [edges[0]!, edges.at(-1)!];
  if (unit === 'none') {
    if (written === undefined) return 0;
    return { wrong: `${fault.id} has no severity`, mend: 'leave the severity out' };
  }
  const worst = unit === 'ohm' && fault.kind === 'resistance' ? high : low;
  if (written === undefined) return worst;
  if (/^open$/i.test(written.trim()) && unit === 'ohm' && fault.kind === 'resistance') return high;
  const range =
    unit === 'ohm' && fault.kind === 'resistance'
      ? `${nice(low)} ohm to open`
      : `${nice(low)} to ${nice(high)} ${unit}`;
  const value = parseQuantity(written, QUANTITY[unit]);
  if (!('value' in value)) return { wrong: value.wrong, mend: `${fault.id} can have ${range}` };
  if (value.value < low || value.value > high)
    return { wrong: `${written} is no severity that ${fault.id} can have`, mend: `write ${range}` };
  return value.value;
}

const QUANTITY = { ohm: 'ohms', V: 'volts', W: 'watts', A: 'amps' } as const;

function nice(value: number): string {
  return String(Number(value.toPrecision(3)));
}

/** Lines of the complaint, each about what a load does. */
export function complaintLines(
  circuit: Circuit,
  document: ExerciseDocument,
  ranges: Ranges,
  mistakes: Mistakes,
): readonly string[] {
  const lines = document.complaint ?? [];
  lines.forEach((text, index) => {
    const range = ranges.value(pointer('complaint', index));
    const line = parseLine(text, circuit);
    if (line.kind === 'error') mistakes.error('bad-value', range, small(line.message), small(line.mend));
    else if (
      line.kind !== 'events' ||
      line.events.some((event) => event.type !== 'found' || event.reading.kind !== 'load')
    )
      mistakes.error(
        'bad-value',
        range,
        'this line does not say what a load does',
        'write it like fails H1 when pedal down, H1 dim, or works H2',
      );
  });
  if (lines.length > 0 && mistakes.errors === 0 && complainedOf(circuit, lines).length === 0)
    mistakes.error(
      'contradiction',
      ranges.key('/complaint'),
      'nothing fails in this complaint',
      'add a line like fails H1 when pedal down',
    );
  return lines;
}

/** Every line of the complaint must be what the vehicle does. */
export async function checkComplaint(
  bench: Workbench,
  concealed: { readonly faults: readonly HiddenFault[]; readonly seed: number },
  lines: readonly string[],
  ranges: Ranges,
  mistakes: Mistakes,
): Promise<void> {
  const driven = complainedOf(bench.circuit, lines).map(({ setUp }) => setUp);
  const vehicle = await ExerciseVehicle.begin(bench, concealed, driven);
  for (const [index, text] of lines.entries())
    for (const { reading, when } of toldEvents(bench.circuit, [text])) {
      if (reading.kind !== 'load') continue;
      const { event } = await vehicle.meet(1, {
        type: 'found',
        reading,
        ...(when === undefined ? {} : { when }),
      });
      const told = reading.value;
      if (event.type !== 'found' || event.reading.kind !== 'load' || event.reading.value === told) continue;
      mistakes.error(
        'contradiction',
        ranges.value(pointer('complaint', index)),
        `with these faults this comes out as “${reading.load} ${event.reading.value}”, not as “${told}”`,
        'correct the line, the faults or their severity',
      );
    }
}

export function hintsOf(document: ExerciseDocument, ranges: Ranges, mistakes: Mistakes): readonly Hint[] {
  return (document.hints ?? []).map(({ text = '', minutes, money }, index) => ({
    text,
    minutes: mistakes.amount(minutes, 'time', ranges.value(pointer('hints', index, 'minutes')), 0),
    money: mistakes.amount(money, 'money', ranges.value(pointer('hints', index, 'money')), 0),
  }));
}

export function markingOf(document: ExerciseDocument, ranges: Ranges, mistakes: Mistakes): Marking {
  if (document.marking === undefined) return MARKS;
  const marking = Object.fromEntries(
    Object.keys(MARKS).map((item) => [item, Number(document.marking?.[item as MarkItem] ?? 0)]),
  ) as Marking;
  const sum = Object.values(marking).reduce((all, marks) => all + marks, 0);
  if (sum !== 100)
    mistakes.error(
      'contradiction',
      ranges.key('/marking'),
      `the marks add up to ${sum}, not to 100`,
      'change them until they add up to 100; an item left out counts 0',
    );
  return marking;
}

function small(sentence: string): string {
  return `${sentence[0]?.toLowerCase() ?? ''}${sentence.slice(1)}`.replace(/\.$/, '');
}
