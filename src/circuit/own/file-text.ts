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
    '# Made by questions and answers. Type, with the name of this file in place of FILE:',
    '#   knowngood draw FILE     to see it',
    '#   knowngood check FILE    after every change: it names the line that is wrong, and how to mend it',
    '#   knowngood start FILE    to find a fault in it',
    '# To change it, use any text editor. What stands behind a # is only for the reader. Keep the blanks at the beginning of a',
    '# line (spaces, no tabs) and behind a colon, the commas, the - before each wire, and the brackets in pairs: {} holds what belongs',
    '# to one thing, [] a list in its order. A number is followed by a blank and its unit: 0.4 m. An id is the short name of a part;',
    '# it stands here and in the wires at it: change it in all of them or in none. So does a position, here and at the switches',
    '# that this control works. Within a section the order of the lines is free, and numbers may be left out. A part that no wire',
    '# goes to any more is taken out.',
    '# Lengths, sizes and minutes that nobody was asked for are guesses: put in what you know. Long wires are thicker, to lose fewer volts.',
    `circuit: ${id}  # its short name: letters, digits, - and _`,
    `title: ${written(wish.title)}`,
    'about: >  # the indented lines below, for the reader only; nothing is worked out from them',
    ...about(wish).map((line) => `  ${line}`),
    `nominal: ${wish.volts} V  # the system, not what a charged battery shows`,
    '',
    '# What a person works: its positions, the one at rest first. Where somebody else must hold it:',
    '# {positions: [up, down], helper: true}.',
    'controls:',
    ...sketch.controls.map((line) => `  ${line}`),
    '',
    '# Where things are, and how many minutes it takes to lay them open (guesses): a number, or {open: 5 min, hazard: airbag} with a',
    '# danger that brings a warning: airbag, battery, fan, hot or roadside. Where there is no such danger take it out.',
    'places:',
    ...[...sketch.places].map(([name, value]) => `  ${key(name)}: ${value}`),
    '',
    '# The parts: id: {type, name, numbers that are printed on it, place}. The id (like H1) is what you type when the program asks',
    '# for a test. control: which of the controls above works a switch, in the same words.',
    '# Letters: G battery, F fuse, S switch, K relay, A module, H lamp, B horn or buzzer, M motor, E other load, Y solenoid,',
    '# X connector, SP splice (wires joined in one point; one wire in and one out where another may be joined later), GP ground',
    '# point: each is joined to the body, and over GP1 to battery -. Of another type than stand below: horn, buzzer, motor, heater,',
    '# solenoid, LED lamp, flasher, module and more; check names them where one is not known.',
    '# contacts: which two terminals a switch joins, and in which of its positions. A catalogue name may stand in place of watts or',
    '# amperes, like: catalogue: P21W; knowngood catalogue lists them.',
    ...(wish.through === 'module'
      ? [
          '# A module reads its inputs (high = battery +, low = ground) and switches its outputs on while the inputs stand so.',
        ]
      : []),
    'parts:',
    ...groups(sketch.parts),
    '',
    '# The wires, from one point to another; size is the cross-section of the copper, not its diameter. F1.2 is terminal 2 of F1.',
    '# Terminals as in the trade: 30 battery +, 31 ground, 15 behind the key switch, 85 and 86 the coil of a relay, 30 and 87 its',
    '# contact; lamps, horns, buzzers and other loads have 1 and 31; a module has its inputs by number, its outputs as O1, O2; all else',
    '# has 1 and 2.',
    '# X1.1h and X1.1c are the harness side and the component side of pin 1 of X1. Where you know its colour write it behind the',
    '# length, like: length: 0.4 m, colour: BNWH (brown with white, the main colour first). BK black, BN brown, RD red, OG orange,',
    '# YE yellow, GN green, BU blue, VT violet, GY grey, WH white, PK pink.',
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
    `The fuse of ${fuseAmps} A is live all the time${live === 'always' ? '' : ', what it feeds only with the key on'}${also === undefined ? '' : `; ${also.name} hangs on it too`}.`,
  ];
}
