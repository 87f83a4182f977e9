/** An electronic module: names its terminals once each, ties outputs to inputs, fills in usual values. */
import { pointer } from './diagnostic.js';
import { didYouMean } from './nearest.js';
import type { PartReader } from './part-reader.js';
import type { CanPort, Module, ModuleInput, ModuleOutput, PartBase } from './parts.js';
import { terminalsOf } from './terminals.js';

/** Ways an output may stand double with each one of which the file does not say when it is on. */
const MOST_UNSAID = 8;

export function moduleOf(base: PartBase, reader: PartReader): Module {
  const { document } = reader;
  const scale = reader.context.nominalVolts / 12;
  const inputs = Object.keys(document.inputs ?? {}).map((terminal) => inputOf(terminal, reader));
  const asleepAmps = reader.amount('asleep', 'draw', 0.005);
  const module: Module = {
    ...base,
    type: 'module',
    supply: document.supply ?? '30',
    ground: document.ground ?? '31',
    reference: document.reference,
    inputs,
    outputs: Object.keys(document.outputs ?? {}).map((terminal) => outputOf(terminal, inputs, reader)),
    can: canOf(reader),
    sleepMinutes:
      document.sleep === undefined || document.sleep === 'never'
        ? document.sleep
        : reader.amount('sleep', 'time', 15),
    // Usual draws: 0.1 A and more at work, a few milliamperes asleep (common practice, no source).
    awakeAmps: reader.amount('awake', 'draw', Math.max(0.1 / scale, asleepAmps)),
    asleepAmps,
  };
  if (module.asleepAmps > module.awakeAmps) {
    reader.mistakes.error(
      'contradiction',
      reader.ranges.value(`${reader.at}/asleep`),
      `${base.id} would draw more asleep than awake`,
      'correct one of the two',
    );
  }
  if (module.sleepMinutes === 'never' && document.asleep !== undefined) {
    reader.mistakes.error(
      'contradiction',
      reader.ranges.value(`${reader.at}/asleep`),
      `${base.id} never sleeps and yet has a draw asleep`,
      'leave out one of the two',
    );
  }
  checkTerminals(module, reader);
  checkUnsaid(module, reader);
  return module;
}

/** Usual pull resistor 1 kΩ to a switch; high from 3.5 V, low up to 1.5 V (common practice, no source). */
function inputOf(terminal: string, reader: PartReader): ModuleInput {
  const { at, id, document, mistakes, ranges } = reader;
  const written = document.inputs![terminal]!;
  const path = ['inputs', terminal];
  const amount = (key: 'ohms' | 'high' | 'low', fallback: number) =>
    reader.amountAt([...path, key], written[key], key === 'ohms' ? 'ohms' : 'volts', fallback);
  const highVolts = amount('high', Math.max(3.5, written.low === undefined ? 0 : 2 * amount('low', 1.5)));
  const lowVolts = amount('low', Math.min(1.5, highVolts / 2));
  if (lowVolts >= highVolts) {
    mistakes.error(
      'contradiction',
      ranges.value(at + pointer(...path, written.low === undefined ? 'high' : 'low')),
      `input ${terminal} of ${id} would count as low up to ${lowVolts} V but as high from ${highVolts} V`,
      'give low fewer volts than high',
    );
  }
  if (written.pull === 'reference' && document.reference === undefined) {
    mistakes.error(
      'contradiction',
      ranges.value(at + pointer(...path, 'pull')),
      `input ${terminal} is pulled up to the reference, but ${id} has none`,
      `add reference: and its terminal to ${id}, or write pull: up`,
    );
  }
  const { reads } = written;
  if (typeof reads === 'object' && reads.high.toLowerCase() === reads.low.toLowerCase()) {
    mistakes.error(
      'contradiction',
      ranges.value(at + pointer(...path, 'reads')),
      `input ${terminal} reads “${reads.high}” both high and low`,
      'give two different words',
    );
  }
  return {
    terminal,
    pull: written.pull,
    pullOhms: amount('ohms', 1000),
    highVolts,
    lowVolts,
    reads: typeof reads === 'string' ? 'volts' : reads,
  };
}

function outputOf(terminal: string, inputs: readonly ModuleInput[], reader: PartReader): ModuleOutput {
  const { at, id, document, mistakes, ranges } = reader;
  const written = document.outputs![terminal]!;
  const path = ['outputs', terminal];
  const optional = (key: 'limit' | 'open-load' | 'pull-up') =>
    written[key] === undefined
      ? undefined
      : reader.amountAt([...path, key], written[key], key === 'pull-up' ? 'ohms' : 'draw', 1);
  const on =
    written.on &&
    Object.entries(written.on).map(([typed, state]) => {
      const input = inputs.find((one) => one.terminal.toLowerCase() === typed.toLowerCase());
      if (input === undefined) {
        mistakes.error(
          'unknown-name',
          ranges.key(at + pointer(...path, 'on', typed)),
          `${id} has no input “${typed}”`,
          inputs.length === 0
            ? `list it under inputs of ${id}, or leave on out`
            : didYouMean(
                typed,
                inputs.map((one) => one.terminal),
                'input',
              ),
        );
      }
      return { input: input?.terminal ?? typed, state };
    });
  const limitAmps = optional('limit');
  const openLoadAmps = optional('open-load');
  if (limitAmps !== undefined && openLoadAmps !== undefined && openLoadAmps >= limitAmps) {
    mistakes.error(
      'contradiction',
      ranges.value(at + pointer(...path, 'open-load')),
      `output ${terminal} of ${id} would shut down at ${openLoadAmps} A and below, and at ${limitAmps} A and above`,
      'give open-load far fewer amperes than limit',
    );
  }
  return {
    terminal,
    side: written.side,
    on,
    duty: reader.amountAt([...path, 'duty'], written.duty, 'share', 100) / 100,
    flashes: written.flashes === 'true',
    limitAmps,
    openLoadAmps,
    pullUpOhms: optional('pull-up'),
    testPulses: written['test pulses'] === 'true',
  };
}

function canOf(reader: PartReader): CanPort | undefined {
  const { can } = reader.document;
  if (can === undefined) return undefined;
  const terminatorOhms =
    can.terminator === undefined
      ? undefined
      : reader.amountAt(['can', 'terminator'], can.terminator, 'ohms', 120);
  return { high: can.high, low: can.low, terminatorOhms };
}

function checkTerminals(module: Module, { id, at, ranges, mistakes, document }: PartReader): void {
  const seen = new Set<string>();
  for (const terminal of terminalsOf(module)) {
    if (seen.has(terminal.toLowerCase())) {
      const group = ['outputs', 'inputs'].find((one) => {
        const named = document[one as 'inputs' | 'outputs'];
        return named !== undefined && Object.hasOwn(named, terminal);
      });
      mistakes.error(
        'duplicate-id',
        group === undefined ? ranges.key(at) : ranges.key(at + pointer(group, terminal)),
        `${id} has the terminal ${terminal} twice`,
        'give each terminal one duty and a name of its own',
      );
    }
    seen.add(terminal.toLowerCase());
  }
}

function checkUnsaid(module: Module, { id, at, ranges, mistakes }: PartReader): void {
  const unsaid = module.outputs.filter(({ on }) => on === undefined);
  if (unsaid.length <= MOST_UNSAID) return;
  mistakes.error(
    'contradiction',
    ranges.key(`${at}/outputs`),
    `${id} has ${unsaid.length} outputs of which nothing says when they are on; more than ${MOST_UNSAID} cannot be followed`,
    'add on: with the inputs that switch them, or draw fewer outputs',
  );
}
