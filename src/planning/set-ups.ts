/** Which positions of the controls are worth looking at: every combination where they are few, else one change at a time. */
import type { Circuit } from '../circuit/circuit.js';
import { edit } from '../session/actions.js';
import type { SetUp } from '../session/setup.js';

export interface SetUps {
  readonly setUps: readonly SetUp[];
  /** True: every combination. False: the one given, and each single change of it. */
  readonly all: boolean;
  /** Combinations there are. */
  readonly of: number;
}

/** @param fixed controls that stay where they are */
export function setUpsFrom(
  circuit: Circuit,
  from: SetUp,
  most: number,
  fixed: ReadonlySet<string> = new Set(),
): SetUps {
  const free = [...circuit.controls.values()].filter(({ id }) => !fixed.has(id));
  const of = free.reduce((product, { positions }) => product * positions.length, 1);
  const one = free.flatMap(({ id, positions }) => positions.map((position) => at(from, id, position)));
  return {
    all: of <= most,
    of,
    setUps:
      of <= most
        ? free.reduce<readonly SetUp[]>(
            (soFar, { id, positions }) =>
              soFar.flatMap((setUp) => positions.map((position) => at(setUp, id, position))),
            [from],
          )
        : [from, ...one.filter((setUp) => setUp !== from)],
  };
}

function at(setUp: SetUp, control: string, position: string): SetUp {
  return setUp.controls.get(control) === position ? setUp : edit({ do: 'operate', control, position }, setUp);
}
