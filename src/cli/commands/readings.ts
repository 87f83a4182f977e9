/** `readings CIRCUIT`: what a voltmeter would read, healthy or with a fault, so that a figure on the vehicle has something beside it. */
import { nominalVolts } from '../../diagnosis/readings.js';
import { createWorkbench } from '../../diagnosis/workbench.js';
import type { CommandResult, Context } from '../context.js';
import { findCircuit } from '../find-circuit.js';
import { STATUS } from '../io.js';
import { faultFrom, setUpFrom } from '../set-up-flags.js';
import { pointOf } from './table.js';

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
  const setUp = setUpFrom(circuit, flags.when);
  const faults = flags.fault === undefined ? [] : [faultFrom(bench, flags.fault, flags.severity)];
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
