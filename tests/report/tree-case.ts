/** A tree as a planner might give it, with everything that a form must be able to print. */
import type { Circuit } from '../../src/circuit/circuit.js';
import type { TreeLeaf, TreeNode, TreeRepair, TreeTest } from '../../src/planning/tree-types.js';
import { atRest } from '../../src/session/setup.js';
import { readCircuit } from '../../src/files/circuit-file.js';
import { treeSheet, type TreeSheet } from '../../src/report/tree-sheet.js';

export async function treeCircuit(): Promise<Circuit> {
  const loaded = await readCircuit('circuits/reversing-lamps.yaml');
  if ('problems' in loaded) throw new Error('the circuit does not load');
  return loaded.circuit;
}

export function repair(part: string, how: string, share: number): TreeRepair {
  return { part, how, share, minutes: 8, price: 6, faults: [`${part} open`] };
}

export function leaf(end: TreeLeaf['end'], ...repairs: TreeRepair[]): TreeLeaf {
  return { kind: 'leaf', end, repairs };
}

/** @param answers in order, with their shares of this test */
export function node(
  circuit: Circuit,
  test: Partial<TreeTest['test']>,
  minutes: number,
  ...answers: readonly (readonly [when: string, share: number, node: TreeNode])[]
): TreeTest {
  const reading = { kind: 'load', load: 'H1', value: 'off' } as const;
  return {
    kind: 'test',
    test: {
      line: 'H1',
      first: [],
      actions: [],
      setUp: atRest(circuit),
      reading,
      words: 'look at H1',
      minutes: 1,
      gain: 1,
      separates: true,
      expects: 'sight',
      outcomes: [],
      cautions: [],
      ...test,
    },
    minutes,
    branches: answers.map(([when, share, next]) => ({ when, share, reading, node: next })),
  };
}

export const GAS = 'A battery gives off gas.';

/** Three tests, every kind of end, a caution used twice, a name that a form could take for markup. */
export function sheetOf(circuit: Circuit): TreeSheet {
  const gas = [
    { id: 'battery-gas', text: GAS, stop: false, refused: false },
  ] as unknown as TreeTest['test']['cautions'];
  const last = node(
    circuit,
    { words: 'volts, red GP1, black "battery" \\ <b>', minutes: 0.8, cautions: gas },
    0.8,
    ['about 0.0 V', 0.5, leaf('not in this drawing')],
    [
      'about 12.6 V',
      0.5,
      leaf('repair', repair('W4', 'repair wire W4 (S1.15 to F7.1)', 0.99), repair('F7', 'x', 0.01)),
    ],
  );
  const second = node(
    circuit,
    {
      words: 'take F7 (fuse reversing lamps) out; ohms across its terminals 1 and 2',
      actions: [
        { do: 'operate', control: 'key', position: 'off' },
        { do: 'take out', part: 'F7' },
      ],
      minutes: 1.7,
      cautions: gas,
    },
    2.1,
    [
      'about 0.0 ohm',
      0.4,
      leaf('alike', repair('SP1', 'remake the splice', 0.6), repair('W3', 'repair wire W3', 0.4)),
    ],
    ['OL', 0.55, last],
    [
      '1 ohm',
      0.05,
      leaf(
        'one part',
        repair('F7', 'replace F7 (fuse reversing lamps)', 0.6),
        repair('F7', 'clean and tighten the contacts of F7 (fuse reversing lamps) at terminal 1', 0.4),
      ),
    ],
  );
  const tree = node(
    circuit,
    {
      words: 'look at H2 (right reversing lamp)',
      actions: [{ do: 'operate', control: 'gear', position: 'reverse' }],
      minutes: 0.5,
    },
    1.3,
    [
      'lit',
      0.595,
      leaf(
        'not followed',
        repair('H1', 'replace H1', 0.7),
        repair('X3', 'clean X3', 0.28),
        repair('GP2', 'clean GP2', 0.02),
      ),
    ],
    ['dim', 0.005, leaf('not followed', repair('H1', 'replace H1', 1))],
    ['off', 0.4, second],
  );
  return treeSheet(circuit, ['H1 (left reversing lamp): off, key on'], tree);
}
