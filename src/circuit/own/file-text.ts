/** The finished file: every section with a comment that says what its lines mean and how to change them. */
import { designOf } from './design.js';
import { written, type Group } from './sketch.js';
import { ampsOf, type Wish } from './wish.js';

/** @param id short name of the circuit */
export function ownCircuitText(wish: Wish, id: string): string {
  const sketch = designOf(wish);
  const key = (name: string): string => written(name);
  const lines = [
    `# ${wish.title}`,
    '# Made by questions and answers. A line that begins with # is only for the reader; change the others with any text editor,',
    '# then let the program check them: knowngood check FILE. Rough guesses (lengths, minutes) say so: put in what you know.',
    `circuit: ${id}`,
    `title: ${written(wish.title)}`,
    'about: >',
    ...about(wish).map((line) => `  ${line}`),
    `nominal: ${wish.volts} V`,
    '',
    '# What a person works: its positions, the one at rest first. helper: true = somebody else must hold it.',
    'controls:',
    ...sketch.controls.map((line) => `  ${line}`),
    '',
    '# Where things are, and how many minutes it takes to get there (guesses). A hazard brings a warning.',
    'places:',
    ...[...sketch.places].map(([name, value]) => `  ${key(name)}: ${value}`),
    '',
    '# The parts: id: {type, name, numbers that are printed on it, place}. The id is what you type at the prompt.',
    '# Letters: G battery, F fuse, S switch, K relay, A module, H lamp, B horn or buzzer, M motor, E other load, Y solenoid,',
    '# X connector, SP splice (wires joined in one point), GP ground point on the body.',
    '# contacts: which two terminals a switch joins, and in which of its positions. A catalogue name (like P21W) stands for the',
    '# watts or amperes of the part: knowngood catalogue lists them.',
    ...(wish.through === 'module'
      ? [
          '# A module reads its inputs (high = battery +, low = ground) and switches its outputs on while the inputs stand so.',
        ]
      : []),
    'parts:',
    ...groups(sketch.parts),
    '',
    '# The wires, from one point to another. F1.2 is terminal 2 of F1; X1.1h and X1.1c are the harness side and the component',
    '# side of pin 1 of X1. Add colour: RDBK (red with black) where you know it. Lengths are guesses but for the long one.',
    'wires:',
    ...groups(sketch.wires),
  ];
  return `${lines.join('\n')}\n`;
}

function groups(list: readonly Group[]): readonly string[] {
  return list
    .filter(({ lines }) => lines.length > 0)
    .flatMap(({ comment, lines }, index) => [
      ...(index === 0 ? [] : ['']),
      `  # ${comment}`,
      ...lines.map((line) => `  ${line}`),
    ]);
}

function about({ loads, control, side, through, live, fuseAmps, also, volts }: Wish): readonly string[] {
  const how = {
    switch: `${control} switches them ${side === 'feed' ? 'in the feed' : 'on the ground side'}.`,
    relay: `${control} works a relay ${side === 'feed' ? 'from the feed' : 'from the ground side'}; the relay feeds them.`,
    module: `A module reads ${control} and feeds each of them from an output of its own.`,
  }[through];
  const amps = Number(ampsOf(loads).toPrecision(2));
  return [
    `${loads.length === 1 ? 'One load' : `${loads.length} loads`} of ${amps} A together at ${volts} V: ${loads.map(({ name }) => name).join(', ')}.`,
    `${how.charAt(0).toUpperCase()}${how.slice(1)}`,
    `The fuse of ${fuseAmps} A is live ${live === 'always' ? 'all the time' : 'with the key on'}${also === undefined ? '' : `; ${also.name} hangs on it too`}.`,
  ];
}
