/** Flags that say in which set-up, and with which fault, something is calculated: `--when`, `--fault`, `--severity`. */
import type { Circuit } from '../circuit/circuit.js';
import { didYouMean } from '../circuit/nearest.js';
import type { Fault } from '../diagnosis/fault.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { AppliedFault } from '../network/solver-types.js';
import { edit } from '../session/actions.js';
import { atRest, type SetUp } from '../session/setup.js';
import { Failure } from './failure.js';

/** The circuit at rest but for these controls, each typed as `pedal down` or `engine running`. */
export function setUpFrom(circuit: Circuit, when: readonly string[] = []): SetUp {
  return when.reduce((before, pair) => positioned(circuit, before, pair), atRest(circuit));
}

function positioned(circuit: Circuit, before: SetUp, pair: string): SetUp {
  const typed = pair.trim().toLowerCase().replace(/\s+/g, ' ');
  if (typed === 'engine running' || typed === 'engine off')
    return edit({ do: 'engine', state: typed === 'engine off' ? 'off' : 'running' }, before);
  const controls = [...circuit.controls.values()].sort((a, b) => b.id.length - a.id.length);
  const known = controls.find(
    ({ id }) => typed === id.toLowerCase() || typed.startsWith(`${id.toLowerCase()} `),
  );
  if (known === undefined) {
    const at = pair.trim().lastIndexOf(' ');
    const control = at < 0 ? pair.trim() : pair.trim().slice(0, at);
    throw new Failure(
      `This circuit has no control "${control}"`,
      circuit.controls.size === 0
        ? 'Nothing in it is worked by hand.'
        : `${didYouMean(control, [...circuit.controls.keys()], 'control')}; write it like --when "${exampleOf(circuit)}".`,
    );
  }
  const wanted = typed.slice(known.id.length + 1);
  const position = known.positions.find((one) => one.toLowerCase() === wanted);
  if (position === undefined)
    throw new Failure(
      `${known.id} has no position "${wanted}"`,
      `Its positions: ${known.positions.join(', ')}.`,
    );
  return edit({ do: 'operate', control: known.id, position }, before);
}

function exampleOf({ controls }: Circuit): string {
  const [first] = controls.values();
  return `${first!.id} ${first!.positions[1]}`;
}

/** @param severity ohms, volts or watts as typed; left out = the worst */
export function faultFrom(bench: Workbench, id: string, severity?: string): AppliedFault {
  const fault = bench.faults.find((one) => one.id.toLowerCase() === id.trim().toLowerCase());
  if (fault === undefined) {
    const ids = bench.faults.map((one) => one.id);
    const own = ids.filter((one) => one.toLowerCase().startsWith(id.trim().toLowerCase()));
    throw new Failure(
      `This circuit has no fault "${id}"`,
      own.length > 0 ? `There is: ${own.slice(0, 12).join(', ')}.` : didYouMean(id, ids, 'fault'),
    );
  }
  const chosen = severity === undefined ? worstOf(fault) : Number(severity);
  if (!Number.isFinite(chosen) || chosen < 0)
    throw new Failure(`"${severity}" is no severity`, 'Write a plain number of ohms, volts or watts.');
  return fault.apply(chosen);
}

/** The severity at which a fault shows most: an open circuit, a dead short, an empty battery. */
export function worstOf({ kind, scale: { edges } }: Fault): number {
  return kind === 'resistance' ? edges.at(-1)! : edges[0]!;
}
