/**
 * A generated harness of 300 parts for measurements: lamps in blocks, each block behind a fuse and
 * a switch of its own and each lamp behind plugs in a row, all sharing the battery, the
 * feed bar of the fuse box and the ground on the body. Demo data.
 */

const BLOCKS = 4;
const LAMPS = 12;
/** Plugs in a row on the way to each lamp and back. */
const PLUGS = 4;
/** Lamps that share a splice and a ground. */
const NEIGHBOURS = 6;
/** Parts in all; the first lamps of each block have one plug more to make them up. */
const PARTS = 300;
const EXTRA = PARTS - (3 + BLOCKS * (2 + LAMPS * (1 + PLUGS) + (2 * LAMPS) / NEIGHBOURS));

/** The circuit file. */
export function harnessYaml(): string {
  const parts = [
    '  G1: {type: battery, name: battery, place: battery}',
    '  GP1: {type: ground, name: battery ground on the body, place: battery}',
    '  SP1: {type: splice, name: fuse box feed bar, place: fuse box}',
  ];
  const wires = [wire('G1.30', 'SP1', 16, 1), wire('G1.31', 'GP1', 16, 0.4)];
  const controls: string[] = [];
  let plugs = 0;
  for (let block = 1; block <= BLOCKS; block++) {
    controls.push(`  switch ${block}: [off, on]`);
    parts.push(
      `  F${block}: {type: fuse, name: fuse of block ${block}, rating: 20 A, place: fuse box}`,
      `  S${block}: {type: switch, name: switch of block ${block}, control: switch ${block}, place: fuse box, contacts: [{between: [1, 2], closed: [on]}]}`,
    );
    wires.push(wire('SP1', `F${block}.1`, 4, 0.5), wire(`F${block}.2`, `S${block}.1`, 2.5, 1));
    for (let lamp = 1; lamp <= LAMPS; lamp++) {
      const id = (block - 1) * LAMPS + lamp;
      const place = `side ${1 + (lamp % 6)}`;
      const shared = 1 + Math.ceil(id / NEIGHBOURS);
      if (lamp % NEIGHBOURS === 1) {
        parts.push(
          `  SP${shared}: {type: splice, name: splice ${shared}, place: loom}`,
          `  GP${shared}: {type: ground, name: ground ${shared}, place: ${place}}`,
        );
        wires.push(wire(lamp === 1 ? `S${block}.2` : `SP${shared - 1}`, `SP${shared}`, 2.5, 3));
      }
      let feed = `SP${shared}`;
      let ground = `GP${shared}`;
      for (let k = 0; k < PLUGS + (id <= EXTRA ? 1 : 0); k++) {
        const plug = `X${++plugs}`;
        parts.push(`  ${plug}: {type: connector, name: plug ${plugs}, pins: [1, 2], place: ${place}}`);
        wires.push(wire(feed, `${plug}.1h`, 0.75, 0.5), wire(`${plug}.2h`, ground, 0.75, 0.5));
        [feed, ground] = [`${plug}.1c`, `${plug}.2c`];
      }
      parts.push(`  H${id}: {type: lamp, name: lamp ${id}, watts: 10 W, place: ${place}}`);
      wires.push(wire(feed, `H${id}.1`, 0.75, 0.2), wire(`H${id}.31`, ground, 0.75, 0.2));
    }
  }
  return [
    '# Demo: a generated harness.',
    'circuit: harness',
    'title: Generated harness',
    'nominal: 12 V',
    'controls:',
    ...controls,
    'places:',
    '  battery: {open: 1 min, hazard: battery}',
    '  fuse box: {open: 2 min}',
    '  loom: {open: 15 min}',
    ...Array.from({ length: 6 }, (_, i) => `  side ${i + 1}: {open: 3 min}`),
    'parts:',
    ...parts,
    'wires:',
    ...wires,
    '',
  ].join('\n');
}

/** Two lamps of the first block are dark: its fuse may have been blown by a short anywhere behind it. */
export const CONCERN = 'fails H1 H2 when switch 1 on';

function wire(from: string, to: string, size: number, length: number): string {
  return `  - {from: ${from}, to: ${to}, size: ${size} mm2, length: ${length} m, colour: BK}`;
}
