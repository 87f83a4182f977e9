/**
 * What one fault alone would still do to a vehicle that is otherwise whole: a load that should work does not, or a fuse blows.
 * A fault that does neither is of no consequence in those conditions.
 */
import { sourceLaw } from '../network/conditions.js';
import type { LoadKind } from '../network/network.js';
import { seenVolts } from '../network/phases.js';
import type { AppliedFault, Outcome } from '../network/solver-types.js';
import { WORKING } from '../session/parse-sight.js';
import type { SetUp } from '../session/setup.js';
import { sightBand } from './sights.js';
import type { Workbench } from './workbench.js';

/** Every part is taken at its nominal value: this says what is worth a warning, and rules nothing out. */
export class Spoils {
  private readonly expected: readonly (readonly [SetUp, ReadonlySet<string>])[];

  /** @param setUps the conditions that count, each with everything in its place */
  constructor(
    private readonly bench: Workbench,
    setUps: readonly SetUp[],
  ) {
    this.expected = setUps.map((setUp) => [setUp, this.workingIn(setUp, []).working] as const);
  }

  /** True when the fault blows a fuse, or a load that works in a healthy vehicle may fail, in one of the conditions. */
  by(fault: AppliedFault): boolean {
    return this.expected.some(([setUp, loads]) => {
      const { working, blows } = this.workingIn(setUp, [fault]);
      return blows || [...loads].some((load) => !working.has(load));
    });
  }

  /** True when it does so although the other fault is there: then it is not that one that keeps it from showing. */
  showsBeside(other: AppliedFault, fault: AppliedFault): boolean {
    return this.expected.some(([setUp]) => {
      const { working } = this.workingIn(setUp, [other]);
      const both = this.workingIn(setUp, [other, fault]);
      return both.blows || [...working].some((load) => !both.working.has(load));
    });
  }

  private workingIn(
    setUp: SetUp,
    faults: readonly AppliedFault[],
  ): { readonly working: ReadonlySet<string>; readonly blows: boolean } {
    const { bench } = this;
    const { network, circuit, source } = bench;
    const own = faults.some((fault) => 'element' in fault && fault.element === source);
    const battery = {
      kind: 'law' as const,
      element: source,
      law: sourceLaw(network, circuit.nominalVolts, setUp.engine),
    };
    const outcomes = bench.solver([]).solve({
      present: bench.presence(setUp),
      faults: own ? faults : [battery, ...faults],
      blown: 0,
    });
    const working = new Set<string>();
    for (const [id, { element, kind, ratedVolts }] of network.loads) {
      const { a, b } = network.elements[element]!;
      if (outcomes.every((outcome) => works(outcome, a, b, kind, ratedVolts))) working.add(id);
    }
    return { working, blows: outcomes.some(({ blown }) => blown !== 0) };
  }
}

function works(outcome: Outcome, a: number, b: number, kind: LoadKind, ratedVolts: number): boolean {
  const { low, high } = seenVolts(outcome, a, b, kind);
  const band = sightBand(kind, WORKING[kind]);
  return [low, high].some((volts) => {
    const share = (kind === 'LED' ? volts : Math.abs(volts)) / ratedVolts;
    return share >= band.low && share <= band.high;
  });
}
