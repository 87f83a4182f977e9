/** Other loads, in the failed condition and with one control changed: these cost a glance. */
import type { Load } from '../../network/network.js';
import type { SetUp } from '../../session/setup.js';
import { atRest, sameSetUp } from '../../session/setup.js';
import type { Candidate, Scope } from '../candidate.js';

export function glances(scope: Scope): Candidate[] {
  const { bench } = scope;
  return glanceSetUps(scope).flatMap((setUp) =>
    [...bench.network.loads.values()].map((load) => watch(bench.circuit, load, setUp)),
  );
}

/** The failed conditions, these with one control changed, everything at rest, and each control worked alone. */
export function glanceSetUps({ bench, conditions }: Scope): SetUp[] {
  const { circuit } = bench;
  const rest = atRest(circuit);
  const controls = [...circuit.controls.values()];
  const worked = new Set(
    conditions.flatMap(({ setUp }) =>
      [...setUp.controls].map(([control, position]) => `${control} ${position}`),
    ),
  );
  const changed = conditions.flatMap(({ setUp }) =>
    controls.flatMap(({ id, positions, risk }) =>
      positions
        // One that may move something is worked no further than the complaint needs it.
        .filter((position, i) => risk === undefined || i === 0 || worked.has(`${id} ${position}`))
        .map((position) => withControl(setUp, id, position)),
    ),
  );
  const alone = controls.flatMap((control) =>
    control.risk === undefined
      ? control.positions.slice(1).map((position) => withControl(rest, control.id, position))
      : [],
  );
  const setUps = [...conditions.map(({ setUp }) => setUp), ...changed, rest, ...alone];
  return setUps.filter((setUp, i) => setUps.findIndex((other) => sameSetUp(other, setUp)) === i);
}

/** One load watched in a set-up. */
export function watch(circuit: Scope['bench']['circuit'], load: Load, setUp: SetUp, because = ''): Candidate {
  const { label } = circuit.parts.get(load.part)!;
  return {
    line: load.id,
    words: `${because}${verbFor(load.kind)} ${load.id} (${label})`,
    setUp,
    reading: { kind: 'load', load: load.id, value: 'off' },
    bare: 'look',
    at: [],
  };
}

function verbFor(kind: Load['kind']): string {
  switch (kind) {
    case 'lamp':
    case 'LED':
      return 'look at';
    case 'motor':
    case 'load':
      return 'watch';
    case 'heater':
      return 'feel the warmth of';
    case 'horn':
    case 'relay':
    case 'solenoid':
      return 'listen to';
  }
}

function withControl(setUp: SetUp, control: string, position: string): SetUp {
  return { ...setUp, controls: new Map(setUp.controls).set(control, position) };
}
