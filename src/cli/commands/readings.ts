/** `readings CIRCUIT`: what a voltmeter would read, healthy or with a fault, so that a figure on the vehicle has something beside it. */
import { didYouMean } from '../../circuit/nearest.js';
import { nominalVolts } from '../../diagnosis/readings.js';
import { createWorkbench, type Workbench } from '../../diagnosis/workbench.js';
import type { AppliedFault } from '../../network/solver-types.js';
import { edit } from '../../session/actions.js';
import { atRest, type SetUp } from '../../session/setup.js';
import type { CommandResult, Context } from '../context.js';
import { Failure } from '../failure.js';
import { findCircuit } from '../find-circuit.js';
import { STATUS } from '../io.js';

export interface ReadingsFlags {
  readonly when?: readonly string[];
  readonly red?: string;
  readonly black?: string;
  readonly fault?: string;
  readonly severity?: string;
  readonly json?: boolean;
}

export async function readings(context: Context, name: string, flags: ReadingsFlags): CommandResult {
  const { circuit } = await findCircuit(context, name);
  const bench = createWorkbench(circuit);
  const setUp = (flags.when ?? []).reduce((before, pair) => positioned(bench, before, pair), atRest(circuit));
  const faults = flags.fault === undefined ? [] : [faultOf(bench, flags.fault, flags.severity)];
  const black = pointOf(bench, flags.black ?? 'bat-');
  const reds =
    flags.red === undefined
      ? [...bench.network.points.keys()].filter((point) => !point.endsWith('i'))
      : [pointOf(bench, flags.red)];
  const table = reds.map((red) => ({ red, black, volts: nominalVolts(bench, setUp, red, black, faults) }));
  if (flags.json === true) context.output.json('readings', { readings: table });
  else {
    context.output.result('Calculated, every part at its nominal value. Nothing here was measured.');
    for (const { red, volts } of table) {
      context.output.result(
        `${red.padEnd(12)} ${volts.map((value) => `${value.toFixed(3)} V`).join(' or ')}`,
      );
    }
  }
  return STATUS.ok;
}

function positioned(bench: Workbench, before: SetUp, pair: string): SetUp {
  const at = pair.trim().lastIndexOf(' ');
  const [control, position] = [pair.trim().slice(0, at), pair.trim().slice(at + 1)];
  const known = bench.circuit.controls.get(control);
  if (known === undefined) {
    const names = [...bench.circuit.controls.keys()];
    throw new Failure(`This circuit has no control "${control}"`, didYouMean(control, names, 'control'));
  }
  if (!known.positions.includes(position)) {
    throw new Failure(
      `${control} has no position "${position}"`,
      `Its positions: ${known.positions.join(', ')}.`,
    );
  }
  return edit({ do: 'operate', control, position }, before);
}

function pointOf(bench: Workbench, name: string): string {
  if (bench.network.points.has(name)) return name;
  throw new Failure(
    `This circuit has no point "${name}"`,
    didYouMean(name, bench.network.points.keys(), 'point'),
  );
}

function faultOf(bench: Workbench, id: string, severity: string | undefined): AppliedFault {
  const fault = bench.faults.find((one) => one.id === id);
  if (fault === undefined)
    throw new Failure(
      `This circuit has no fault "${id}"`,
      didYouMean(
        id,
        bench.faults.map((one) => one.id),
        'fault',
      ),
    );
  const worst = fault.kind === 'resistance' ? fault.scale.edges.at(-1)! : fault.scale.edges[0]!;
  const chosen = severity === undefined ? worst : Number(severity);
  if (!Number.isFinite(chosen) || chosen < 0)
    throw new Failure(`"${severity}" is no severity`, 'Write a plain number of ohms, volts or watts.');
  return fault.apply(chosen);
}
