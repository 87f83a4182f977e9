/**
 * An electronic module as ordinary elements: its supply and inputs are coils, its outputs contacts that those coils move. What
 * the file leaves unsaid becomes a contact that may be either way.
 *
 * Sites, with T a terminal: `supply`, `electronics` (own draw), `electronics asleep`, `reference`, `T input`, `T pull`,
 * `T pull asleep`, `T driver`, `T limit`, `T sense`, `T pull-up`, `T test pulses`; of the data pair see compile-can.ts.
 */
import type { Module, ModuleInput, ModuleOutput } from '../circuit/circuit.js';
import { compileCan } from './compile-can.js';
import { contactLaw, type NetworkBuilder } from './network-builder.js';
import type { ModuleAt } from './module-at.js';
import type { SingleCond } from './network.js';
import { band, ohmsBand, supplyBand } from './part-laws.js';

/** What an input without a resistor of its own draws (from memory). */
const INPUT = { ohms: 1e6, low: 0.1, high: 10 };
/** Pull resistors are inside, so of any make (common practice, no source). */
const PULL = { low: 0.8, high: 1.25 };
/** Closed switching transistors of small drivers (data sheets, from memory). */
const DRIVER_OHMS = { ohms: 0.03, low: 0.004, high: 0.15 };
/** Shunt in which a driver measures its current; part of the driver, so no fault sits in it. */
const SENSE_OHMS = 0.005;
/** Test pulses last well below a thousandth to some hundredths of the time (common practice, no source). */
const TEST_PULSES = { part: 0.005, low: 0, high: 0.03 };
/** A module that is awake draws between these shares of its usual current, by what it has to do (common practice, no source). */
const [IDLE, BUSY] = [0.4, 1.6];
const EITHER = { pullInVolts: Infinity, dropOutVolts: -Infinity } as const;

export function compileModule(builder: NetworkBuilder, part: Module, nominalVolts: number): void {
  const plus = builder.inside(part, part.supply);
  const minus = builder.inside(part, part.ground);
  const supply = builder.item(part, 'supply', plus, minus, band(1e6, 0.2, 5));
  const rested = (state: 'before' | 'after') =>
    part.sleepMinutes === undefined || part.sleepMinutes === 'never'
      ? undefined
      : ({ kind: 'rested', minutes: part.sleepMinutes, state } as const);
  const at: ModuleAt = {
    builder,
    part,
    plus,
    minus,
    powered: builder.coil(supply, { ...supplyBand(nominalVolts), rest: 'open' }),
    awake: rested('before'),
    asleep: rested('after'),
  };
  draw(at, nominalVolts);
  if (part.reference !== undefined) reference(at, part.reference);
  const senses = new Map(part.inputs.map((input) => [input.terminal, senseInput(at, input, supply)]));
  for (const output of part.outputs) driveOutput(at, output, senses);
  if (part.can !== undefined) compileCan(at, part.can);
}

/** Own current: until it sleeps for sure, anything between asleep and busy; where it never sleeps, between idle and busy. */
function draw({ builder, part, plus, minus, awake, asleep }: ModuleAt, nominalVolts: number): void {
  const ohms = (amps: number) => nominalVolts / amps;
  const least = part.sleepMinutes === 'never' ? IDLE * part.awakeAmps : 0.5 * part.asleepAmps;
  const busy = { ohms: ohms(part.awakeAmps), low: ohms(BUSY * part.awakeAmps), high: ohms(least) };
  if (awake === undefined || asleep === undefined) {
    builder.item(part, 'electronics', plus, minus, { kind: 'ohms', ...busy });
    return;
  }
  builder.item(part, 'electronics', plus, minus, contactLaw(busy, [awake]));
  const quiet = ohmsBand(ohms(part.asleepAmps), 0.5, 2);
  builder.item(part, 'electronics asleep', plus, minus, contactLaw(quiet, [asleep]));
}

/** A regulated 5 V for sensors. Its limit is not modelled: shorted, it gives a few amperes and next to no volts. */
function reference({ builder, part, minus, powered }: ModuleAt, terminal: string): void {
  const regulated = builder.node(`${part.id}:5 V`);
  builder.item(part, 'reference', minus, regulated, {
    kind: 'source',
    volts: 5,
    lowVolts: 4.9,
    highVolts: 5.1,
    ohms: 1,
  });
  const law = contactLaw(ohmsBand(1, 0.2, 2), [powered]);
  builder.item(part, `${terminal} reference`, regulated, builder.inside(part, terminal), law);
}

/** @returns element whose volts the module judges */
function senseInput(
  at: ModuleAt,
  input: ModuleInput,
  supply: number,
): { element: number; input: ModuleInput } {
  const { builder, part, plus, minus, powered, awake, asleep } = at;
  const { terminal, pull, pullOhms } = input;
  const node = builder.inside(part, terminal);
  const own = pull === 'down' ? band(pullOhms, PULL.low, PULL.high) : band(INPUT.ohms, INPUT.low, INPUT.high);
  const element = builder.item(part, `${terminal} input`, node, minus, own);
  if (pull === 'reference') {
    const source = builder.inside(part, part.reference ?? part.supply);
    builder.item(part, `${terminal} pull`, source, node, band(pullOhms, PULL.low, PULL.high));
  }
  if (pull === 'up') {
    const closed = awake === undefined ? [powered] : [powered, awake];
    const law = contactLaw(ohmsBand(pullOhms, PULL.low, PULL.high), closed);
    builder.item(part, `${terminal} pull`, plus, node, law);
    // Asleep, some modules look at their inputs all the time, some now and then, some not at all.
    if (asleep !== undefined) {
      const rare = { ohms: pullOhms, low: pullOhms * PULL.low, high: 1e7 };
      builder.item(part, `${terminal} pull asleep`, plus, node, contactLaw(rare, [powered, asleep]));
    }
  }
  if (input.reads !== undefined) {
    const { highVolts, lowVolts, reads } = input;
    const id = `${part.id}.${terminal}`;
    builder.scans.set(id, {
      id,
      part: part.id,
      input: terminal,
      element,
      supply,
      highVolts,
      lowVolts,
      reads,
    });
  }
  return { element, input };
}

function driveOutput(
  at: ModuleAt,
  output: ModuleOutput,
  senses: ReadonlyMap<string, ReturnType<typeof senseInput>>,
): void {
  const { builder, part, plus, minus, powered } = at;
  const { terminal, limitAmps, openLoadAmps } = output;
  const site = (what: string) => `${terminal} ${what}`;
  const node = builder.inside(part, terminal);
  // Driver, then what measures or limits the current, then the terminal.
  let tap = node;
  let sense: number | undefined;
  if (openLoadAmps !== undefined || output.flashes) {
    const inner = builder.node(`${part.id}:${site('sensed')}`);
    sense = builder.item(part, site('sense'), inner, tap, band(SENSE_OHMS, 1, 1));
    tap = inner;
  }
  if (limitAmps !== undefined) {
    const inner = builder.node(`${part.id}:${site('limited')}`);
    const fuse = { kind: 'fuse', ...ohmsBand(0.005, 0.5, 2), amps: limitAmps, resets: 'electronic' } as const;
    builder.item(part, site('limit'), inner, tap, fuse);
    tap = inner;
  }
  const rail = output.side === 'high' ? plus : minus;
  const closed: SingleCond[] = [powered];
  for (const { input, state } of output.on ?? []) {
    const { element, input: sensed } = senses.get(input)!;
    const rest = state === 'high' ? 'open' : 'closed';
    closed.push(
      builder.coil(element, { pullInVolts: sensed.highVolts, dropOutVolts: sensed.lowVolts, rest }),
    );
  }
  // One state of its own per output; a flashing one has it already, and hides a shut-down for want of load.
  if (output.flashes) closed.push(builder.coil(sense!, { ...EITHER, rest: 'open', manner: 'alternating' }));
  else if (output.on !== undefined && openLoadAmps !== undefined) {
    const pullInVolts = openLoadAmps * 1.3 * SENSE_OHMS;
    closed.push(
      builder.coil(sense!, { pullInVolts, dropOutVolts: -Infinity, rest: 'closed', manner: 'under' }),
    );
  }
  if (output.on === undefined) {
    closed.push(builder.coil(builder.next, { ...EITHER, rest: 'closed', manner: 'under' }));
  }
  const { duty } = output;
  const share = duty < 1 ? { part: duty, low: duty * 0.85, high: Math.min(1, duty * 1.15) } : undefined;
  builder.item(part, site('driver'), rail, tap, contactLaw(DRIVER_OHMS, closed, share));
  if (output.testPulses)
    builder.item(part, site('test pulses'), rail, tap, contactLaw(DRIVER_OHMS, [powered], TEST_PULSES));
  if (output.pullUpOhms !== undefined) {
    const law = contactLaw(ohmsBand(output.pullUpOhms, PULL.low, PULL.high), [powered]);
    builder.item(part, site('pull-up'), plus, node, law);
  }
}
