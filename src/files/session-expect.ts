/** What a session written by hand expects, brought to the names of its circuit. */
import type { Circuit } from '../circuit/circuit.js';
import { pointer, type Diagnostic, type Ranges } from '../circuit/diagnostic.js';
import { didYouMean } from '../circuit/nearest.js';
import { severityRange, type SeverityRange } from './severity-range.js';

/** What a session expects of the reasoner and the report; absent = nothing is said about it. */
export interface Expectation {
  /** Ids of faults (`X3.1 resistance`), parts or wires that must still be suspects. */
  readonly suspects?: readonly string[];
  /** Parts or wires that lead. */
  readonly top?: readonly string[];
  readonly notOnItsOwn?: readonly string[];
  /** Parts or wires the report must not call bad. */
  readonly notBlamed?: readonly string[];
  readonly cleared?: readonly string[];
  readonly fits?: boolean;
  readonly verified?: boolean;
  /** Id of a fault to the severity that its fitted range must meet. */
  readonly severity?: ReadonlyMap<string, SeverityRange>;
  /** The open explanation that weighs most. */
  readonly open?: string;
  /** Of the leading suspect. */
  readonly course?: string;
  /** Parts or wires that the report names as the cause: these and no others. */
  readonly cause?: readonly string[];
  /** How sure the report is of the cause. */
  readonly certainty?: string;
  /** Line of the test to be suggested next. */
  readonly next?: string;
  /** SHA-256 of the circuit file, or its first digits, by which all this was expected; another one is said, no more. */
  readonly drawing?: string;
}

/** `expect` as it stands in the file, after the schema. */
export type ExpectDocument = Readonly<
  Record<string, string | readonly string[] | Readonly<Record<string, string>>>
>;

/** Names brought to the circuit's own spelling; those it does not have become problems. */
export function expectationOf(
  written: ExpectDocument,
  circuit: Circuit,
  ranges: Ranges,
  problems: Diagnostic[],
): Expectation {
  const known = new Map(
    [...circuit.parts.keys(), ...circuit.wires.map((wire) => wire.id)].map((id) => [id.toLowerCase(), id]),
  );
  const names = (key: string): readonly string[] | undefined =>
    (written[key] as readonly string[] | undefined)?.map((text, index) => {
      const id = known.get(text.toLowerCase());
      // A fault's id begins with its site, and the site with the part: `X3.1 resistance`, `F7:link open`.
      const owner = known.get(text.split(/[\s.:]/)[0]!.toLowerCase());
      if (id !== undefined || (key === 'suspects' && owner !== undefined)) return id ?? text;
      problems.push({
        code: 'unknown-name',
        severity: 'error',
        range: ranges.value(pointer('expect', key, index)),
        message: `this circuit has no part or wire “${text}”`,
        mend:
          owner === undefined
            ? didYouMean(text, known.values(), 'part or wire')
            : `name the whole part: ${owner}`,
      });
      return text;
    });
  const severity = (): ReadonlyMap<string, SeverityRange> | undefined => {
    if (written['severity'] === undefined) return undefined;
    const entries = Object.entries(written['severity'] as Readonly<Record<string, string>>);
    return new Map(
      entries.flatMap(([fault, text]) => {
        const at = pointer('expect', 'severity', fault);
        const range = severityRange(text);
        if (range === undefined)
          problems.push({
            code: 'bad-value',
            severity: 'error',
            range: ranges.value(at),
            message: `“${text}” is no range of severities`,
            mend: 'write it like 2 to 5 ohm, 20 ohm to open, or open',
          });
        if (!known.has(fault.split(/[\s./:]/)[0]!.toLowerCase()))
          problems.push({
            code: 'unknown-name',
            severity: 'error',
            range: ranges.key(at),
            message: `this circuit has no part or wire for the fault “${fault}”`,
            mend: didYouMean(fault.split(/[\s./:]/)[0]!, known.values(), 'part or wire'),
          });
        return range === undefined ? [] : [[fault, range] as const];
      }),
    );
  };
  const flag = (key: string): boolean | undefined =>
    written[key] === undefined ? undefined : written[key] === 'true';
  const expect = {
    suspects: names('suspects'),
    top: names('top'),
    notOnItsOwn: names('not on its own'),
    notBlamed: names('not blamed'),
    cleared: names('cleared'),
    fits: flag('fits'),
    verified: flag('verified'),
    severity: severity(),
    open: written['open'],
    course: written['course'],
    cause: names('cause'),
    certainty: written['certainty'],
    next: written['next'],
    drawing: (written['drawing'] as string | undefined)?.toLowerCase(),
  };
  return Object.fromEntries(Object.entries(expect).filter(([, value]) => value !== undefined));
}
