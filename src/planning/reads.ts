/** The figure a test would give with a version of the fault, in the unit its outcomes are told by. */
import type { Workbench } from '../diagnosis/workbench.js';
import { lawCurrent } from '../network/laws.js';
import type { Law } from '../network/network.js';
import { testLamp } from '../network/meters.js';
import { lampEnds } from '../session/fuse-places.js';
import type { Reading } from '../session/events.js';
import type { Forecast, Forecaster } from './forecast.js';

/** Gets the figure out of a forecast. */
export type Figure = (forecast: Forecast) => number;

/**
 * Volts, ohms, amperes, or for lamps and loads the part of rated volts; undefined for a reading that is not forecast.
 */
export function figureOf(bench: Workbench, forecaster: Forecaster, reading: Reading): Figure | undefined {
  const { network, circuit } = bench;
  const node = (point: string) => network.points.get(point)!;
  switch (reading.kind) {
    case 'volts': {
      const [a, b] = [node(reading.red), node(reading.black)];
      const lamp = reading.mode === 'loaded' ? testLamp('filament', circuit.nominalVolts) : undefined;
      return (forecast) => {
        const volts = forecast.outcome.volts[a]! - forecast.outcome.volts[b]!;
        if (Math.abs(volts) > 1e-3 && !forecaster.joined(forecast, a, b)) return 0;
        if (lamp === undefined) return volts;
        return Math.sign(volts) * loaded(lamp, Math.abs(volts), forecaster.ohmsBetween(forecast, a, b));
      };
    }
    case 'ohms': {
      const [a, b] = [node(reading.red), node(reading.black)];
      return (forecast) => forecaster.ohmsBetween(forecast, a, b);
    }
    case 'test lamp': {
      const [a, b] = [node(reading.red), node(reading.black)];
      const law = testLamp(reading.lamp, circuit.nominalVolts);
      return brightest((forecast) => {
        const volts = Math.abs(forecast.outcome.volts[a]! - forecast.outcome.volts[b]!);
        if (volts < 0.1 || !forecaster.joined(forecast, a, b)) return 0;
        return loaded(law, volts, forecaster.ohmsBetween(forecast, a, b)) / circuit.nominalVolts;
      });
    }
    case 'fuse lamp': {
      const [from, to] = lampEnds(circuit, reading.part);
      const [a, b] = [node(from), node(to)];
      return brightest(
        ({ outcome }) => Math.abs(outcome.volts[a]! - outcome.volts[b]!) / circuit.nominalVolts,
      );
    }
    case 'load': {
      const load = network.loads.get(reading.load)!;
      const { a, b } = network.elements[load.element]!;
      const bit = network.coils.indexOf(load.element);
      if (bit >= 0) return ({ outcome }) => (outcome.pulledIn >>> bit) & 1;
      // An LED needs its volts the right way round.
      const sized = load.kind === 'LED' ? (volts: number) => Math.max(0, volts) : Math.abs;
      return brightest(({ outcome, variant }) => {
        let rated = load.ratedVolts;
        for (const fault of variant.faults)
          if (fault.kind === 'law' && fault.element === load.element && fault.law.kind === 'curve')
            rated = fault.law.volts;
        return sized(outcome.volts[a]! - outcome.volts[b]!) / rated;
      });
    }
    case 'clamp': {
      const element = network.sites.get(reading.at);
      if (element === undefined) return undefined;
      return ({ outcome, variant, stand }) => Math.abs(stand.solver.current(outcome, variant, element));
    }
    case 'scan': {
      const scan = network.scans?.get(`${reading.module}.${reading.input}`);
      if (scan === undefined) return undefined;
      const supply = network.coils.indexOf(scan.supply);
      return ({ outcome, variant, stand }) =>
        (outcome.pulledIn >>> supply) & 1 ? stand.solver.ownVolts(outcome, variant, scan.element) : NO_ANSWER;
    }
    default:
      return undefined;
  }
}

/** What is seen flashing is judged by its bright moments. */
function brightest(figure: Figure): Figure {
  return (forecast) =>
    forecast.moments === undefined ? figure(forecast) : Math.max(...forecast.moments.map(figure));
}

/**
 * Everything that may be read: a meter on what flashes shows either of its moments, or anything between; behind a breaker that may have
 * opened, whatever it shows with it open or closed.
 */
export function figuresIn(reading: Reading, figure: Figure, forecast: Forecast): readonly number[] {
  if (forecast.ways !== undefined) return forecast.ways.flatMap((way) => figuresIn(reading, figure, way));
  const meter = reading.kind === 'volts' || reading.kind === 'ohms' || reading.kind === 'clamp';
  return meter && forecast.moments !== undefined ? forecast.moments.map(figure) : [figure(forecast)];
}

/** Figure of a module that does not answer. */
export const NO_ANSWER = -Infinity;

/** Volts left across a lamp behind so many ohms, by bisection: its current rises with its volts. */
function loaded(law: Law, volts: number, ohms: number): number {
  let [low, high] = [0, volts];
  for (let i = 0; i < 20; i++) {
    const middle = (low + high) / 2;
    if (lawCurrent(law, middle) * ohms > volts - middle) high = middle;
    else low = middle;
  }
  return low;
}
