/**
 * What a version of the fault would read in a test. One solve serves every reading in the same set-up, and is kept for the
 * next call: the likely faults of a session mostly shrink.
 */
import { drivenSetUps, standingOf } from '../diagnosis/evidence.js';
import { placedFaults, placedFuses } from '../diagnosis/fitted.js';
import { loosePartsOf } from '../diagnosis/loose-parts.js';
import type { Workbench } from '../diagnosis/workbench.js';
import { sourceElement } from '../network/conditions.js';
import { momentsOf } from '../network/phases.js';
import type { Adjoint, Solver } from '../network/solver.js';
import type { AddedElement, AppliedFault, Outcome, Variant } from '../network/solver-types.js';
import type { Law, Network } from '../network/network.js';
import type { Case } from '../session/case.js';
import type { SetUp } from '../session/setup.js';
import { batteryRead } from './battery-read.js';
import { isIdle } from './idle.js';
import { islands } from './islands.js';
import type { Version } from './likely.js';

/** How the vehicle stands with one version of the fault in one set-up. */
export interface Forecast {
  readonly stand: Stand;
  readonly outcome: Outcome;
  readonly variant: Variant;
  /** The fault changes nothing here: the outcome is that of the healthy vehicle. */
  readonly idle: boolean;
  /** Number of the connected piece each node is in; made when a reading first needs it. */
  pieces: Int32Array | undefined;
  /** Ohms between two nodes, by `a * nodes + b`. */
  readonly ohms: Map<number, number>;
  /** Where something flashes or chatters: the moments between which it does. */
  readonly moments: readonly Forecast[] | undefined;
  /** Where a breaker that cools by itself may be open or closed, or a module may draw next to nothing: each way of it. */
  readonly ways: readonly Forecast[] | undefined;
}

/** A set-up made ready. */
export interface Stand {
  readonly present: Uint8Array;
  /** Jumpers and lamps of the set-up. */
  readonly added: readonly AddedElement[];
  readonly solver: Solver;
  readonly base: AppliedFault;
  readonly healthy: Outcome;
  /** The healthy vehicle's ohms between two nodes, and the volts that one ampere between them adds everywhere. */
  readonly responses: Map<number, Adjoint>;
  readonly forecasts: Map<string, Forecast>;
}

/** Forecasts kept per workbench: each may hold the volts of every node, about a kilobyte. */
const MOST_KEPT = 40_000;
/** Currents and volts that no reading shows. */
const NOTHING = { amps: 1e-7, volts: 1e-6 };
/** The same for one ampere fed in between the probes. */
const NO_SHARE = { amps: 1e-6, volts: 1e-4 };
/** A difference that a meter shows for sure. */
const SHOWS_VOLTS = 0.1;
/** From here on further ohms in series change nothing: it is open already. */
const OPEN_OHMS = 1e8;

export class Forecaster {
  private readonly stands = new Map<string, Stand>();
  private readonly keys = new WeakMap<SetUp, string>();
  private readonly blown = new Map<string, readonly number[]>();
  private readonly driven: readonly SetUp[];
  private kept = 0;

  /** @param battery volts of the battery with the engine off, as far as they are known */
  constructor(
    private readonly bench: Workbench,
    private readonly battery?: number,
  ) {
    this.driven = drivenSetUps(bench);
  }

  /** Name of a set-up, equal for set-ups that are the same. */
  key(setUp: SetUp): string {
    let key = this.keys.get(setUp);
    if (key === undefined) {
      const { controls, engine, unplugged, out, jumpers, fitted, lamps, rested } = setUp;
      const sorted = (names: Iterable<string>) => [...names].sort().join();
      key = [
        [...controls.values()].join(),
        engine,
        sorted(unplugged),
        sorted(out),
        sorted(jumpers.map((ends) => ends.join('-'))),
        sorted([...fitted].map((pair) => pair.join('='))),
        sorted(lamps),
        rested,
      ].join('|');
      this.keys.set(setUp, key);
    }
    return key;
  }

  forecast(version: Version, setUp: SetUp): Forecast {
    const stand = this.stand(setUp);
    const known = stand.forecasts.get(version.key);
    if (known !== undefined) return known;
    const fresh = this.solve(
      stand,
      version,
      setUp,
      placedFuses(this.bench.network, setUp.fitted, version.blown),
    );
    stand.forecasts.set(version.key, fresh);
    this.kept += 1;
    if (this.kept > MOST_KEPT) this.forget(stand);
    return fresh;
  }

  private solve(stand: Stand, { faults }: Version, setUp: SetUp, blown: number): Forecast {
    const { network } = this.bench;
    const { solver, present, base, healthy } = stand;
    const placed = placedFaults(network, setUp.fitted, faults);
    const own = placed.some(
      (fault) => fault.kind === 'law' && base.kind === 'law' && fault.element === base.element,
    );
    const variant = { present, faults: own ? placed : [base, ...placed], blown };
    const idle =
      blown === 0 && placed.every((fault) => isIdle(network, present, fault, healthy.volts, NOTHING));
    // Where a relay or fuse may stand either way the last outcome is taken: for a choice that is near enough. Not so where a breaker
    // may that cools by itself: it goes on opening and closing.
    const outcomes = idle ? [healthy] : solver.solve({ ...variant, start: healthy });
    const outcome = outcomes.at(-1)!;
    const forecastOf = (one: Outcome, moments: readonly Outcome[], stood = variant): Forecast => ({
      stand,
      outcome: one,
      variant: stood,
      idle,
      pieces: undefined,
      ohms: new Map(),
      moments: moments.length < 2 ? undefined : moments.map((moment) => forecastOf(moment, [], stood)),
      ways: undefined,
    });
    const momentsAt = (one: Outcome) => momentsOf(one, solver.flashers);
    const forecast = forecastOf(outcome, outcome.chatters ? outcomes : momentsAt(outcome));
    const recloses = outcomes.some((other) => ((other.blown ^ outcome.blown) & solver.closeAgain) !== 0);
    if (recloses) return { ...forecast, ways: outcomes.map((way) => forecastOf(way, momentsAt(way))) };
    const quiet = idle || outcome.chatters ? undefined : quietly(network, stand, variant, outcome);
    if (quiet === undefined) return forecast;
    return {
      ...forecast,
      ways: [forecast, forecastOf(quiet.outcome, momentsAt(quiet.outcome), quiet.variant)],
    };
  }

  private stand(setUp: SetUp): Stand {
    const key = this.key(setUp);
    let stand = this.stands.get(key);
    if (stand === undefined) {
      const { bench } = this;
      const { added, present, source } = standingOf(bench, setUp);
      const law =
        this.battery === undefined || setUp.engine === 'running' ? source : withVolts(source, this.battery);
      const base = { kind: 'law', element: sourceElement(bench.network), law } as const;
      const solver = bench.solver(added);
      stand = {
        present,
        added,
        solver,
        base,
        healthy: solver.solve({ present, faults: [base], blown: 0 }).at(-1)!,
        responses: new Map(),
        forecasts: new Map(),
      };
      this.stands.set(key, stand);
    }
    return stand;
  }

  /**
   * Fuses a version may have blown before the tests: where it failed, or wherever else the owner may have driven. The version
   * itself counts every fuse whole.
   */
  blownBy(version: Version, failed: SetUp): readonly number[] {
    const key = `${version.key}|${this.key(failed)}`;
    let masks = this.blown.get(key);
    if (masks === undefined) {
      if (this.blown.size > MOST_KEPT) this.blown.clear();
      const there = this.solve(this.stand(failed), version, failed, 0).outcome.blown;
      let anywhere = there;
      for (const setUp of this.driven)
        if (this.key(setUp) !== this.key(failed))
          anywhere |= this.solve(this.stand(setUp), version, setUp, 0).outcome.blown;
      masks = anywhere === there ? [there] : [there, anywhere];
      this.blown.set(key, masks);
    }
    return masks;
  }

  /** Drops the set-up asked for longest ago. */
  private forget(current: Stand): void {
    for (const [key, stand] of this.stands) {
      if (stand === current) continue;
      this.stands.delete(key);
      this.kept -= stand.forecasts.size;
      if (this.kept < MOST_KEPT / 2) return;
    }
    if (this.kept > MOST_KEPT) {
      this.kept -= current.forecasts.size;
      current.forecasts.clear();
    }
  }

  /** Are the two nodes joined by anything at all? Between pieces that are not, a voltmeter shows nothing. */
  joined(forecast: Forecast, a: number, b: number): boolean {
    forecast.pieces ??= islands(this.bench.network, forecast.variant, forecast.outcome, forecast.stand.added);
    return forecast.pieces[a] === forecast.pieces[b];
  }

  /** Ohms of the vehicle between two nodes, for small currents. */
  ohmsBetween(forecast: Forecast, a: number, b: number): number {
    const key = a * this.bench.network.nodeNames.length + b;
    let found = forecast.ohms.get(key);
    if (found === undefined) forecast.ohms.set(key, (found = this.measured(forecast, a, b, key)));
    return found;
  }

  private measured({ stand, outcome, variant, idle }: Forecast, a: number, b: number, key: number): number {
    const { solver, healthy, present, base, responses } = stand;
    if (idle) {
      let whole = responses.get(key);
      if (whole === undefined) {
        whole = solver.adjoint(healthy, { present, faults: [base], blown: 0 }, a, b);
        responses.set(key, whole);
      }
      const { ohms, response } = whole;
      const unmoved = variant.faults.every(
        (fault) =>
          fault === base ||
          (fault.kind === 'series' && Math.abs(ohms) > OPEN_OHMS) ||
          isIdle(this.bench.network, present, fault, response, NO_SHARE),
      );
      if (unmoved) return Math.abs(ohms);
    }
    return Math.abs(solver.adjoint(outcome, variant, a, b).ohms);
  }
}

/**
 * The same with all that may be anything over a wide range at its quietest, as a module that does not say what it draws; undefined
 * where that makes no difference: behind a bad joint then no volts speak for or against it.
 */
function quietly(
  network: Network,
  { solver, added }: Stand,
  variant: Variant,
  outcome: Outcome,
): { readonly outcome: Outcome; readonly variant: Variant } | undefined {
  const loose = loosePartsOf(network);
  if (loose.length === 0) return undefined;
  const corner = new Int8Array(network.elements.length + added.length);
  for (const element of loose) corner[element] = -1;
  const quiet = { ...variant, corner };
  const other = solver.solve({ ...quiet, start: outcome }).at(-1)!;
  const moved = other.volts.some((volts, node) => Math.abs(volts - outcome.volts[node]!) > SHOWS_VOLTS);
  return moved ? { outcome: other, variant: quiet } : undefined;
}

function withVolts(law: Law, volts: number): Law {
  return law.kind === 'source' ? { ...law, volts } : law;
}

const forecasters = new WeakMap<Workbench, Map<number | undefined, Forecaster>>();
/** Batteries for which forecasts are kept. */
const MOST_BATTERIES = 3;

/** The workbench's own for the battery of this session (left out: for a usual one), with all it has solved so far. */
export function forecasterOf(bench: Workbench, session?: Case): Forecaster {
  let all = forecasters.get(bench);
  if (all === undefined) forecasters.set(bench, (all = new Map()));
  const battery = session && batteryRead(bench, session);
  const known = all.get(battery) ?? new Forecaster(bench, battery);
  all.delete(battery);
  all.set(battery, known);
  if (all.size > MOST_BATTERIES) all.delete(all.keys().next().value!);
  return known;
}
