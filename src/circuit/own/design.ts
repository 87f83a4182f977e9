/**
 * Answers → circuit: battery, fuse, key switch where there is one, then switch, relay or module, the loads, their grounds. Lengths that
 * were not asked are rough (common practice, no source) and say so in the file.
 */
import { feedSize, sizeFor } from '../wire-capacity.js';
import type { OwnLoad } from './loads.js';
import { Sketch, written, type Keys } from './sketch.js';
import { ampsOf, type Wish } from './wish.js';

const LETTERS: Readonly<Record<OwnLoad['type'], string>> = {
  lamp: 'H',
  'LED lamp': 'H',
  horn: 'B',
  buzzer: 'B',
  motor: 'M',
  heater: 'E',
  load: 'E',
  solenoid: 'Y',
};
/** Second terminal: 31 where the trade numbers it so (see terminals.ts). */
const RETURN: Readonly<Record<OwnLoad['type'], string>> = {
  lamp: '31',
  'LED lamp': '31',
  horn: '31',
  buzzer: '31',
  load: '31',
  motor: '2',
  heater: '2',
  solenoid: '2',
};
/** Sizes and lengths near the battery, which nobody is asked about. */
const BATTERY_MM2 = 10;
const SIGNAL_MM2 = 0.75;

export function designOf(wish: Wish): Sketch {
  return new Design(wish).sketch;
}

class Design {
  readonly sketch = new Sketch();
  /** Everything on the fuse together. */
  readonly #amps: number;
  /** Size of the wires that were asked for, as thick as the fuse wants at least. */
  readonly #long: number;
  readonly #signal: number;
  readonly #contacts: string;

  constructor(private readonly wish: Wish) {
    const { sketch } = this;
    this.#amps = ampsOf(wish.also === undefined ? wish.loads : [...wish.loads, wish.also]);
    this.#long = Math.max(sizeFor(wish.fuseAmps), wish.mm2);
    this.#signal = sizeFor(wish.fuseAmps, SIGNAL_MM2);
    this.#contacts = contacts(wish.positions.slice(1));
    sketch.place('battery', 1, 'battery');
    sketch.place('fuse box', 2);
    sketch.place('switch', 5);
    sketch.control(wish.control, wish.positions, wish.helper, `${wish.positions[0]} is at rest`);
    const bar = this.#supply();
    this.#also(bar);
    const outputs = this.#driver(bar);
    this.#loads(outputs);
  }

  /** For a short wire that carries all of it: within the fuse and the volts it may lose. */
  #size(metres: number): number {
    return Math.max(SIGNAL_MM2, feedSize(this.wish.fuseAmps, this.#amps, metres, this.wish.volts));
  }

  /** Battery to fuse, key switch, and the point from which everything of this circuit is fed. */
  #supply(): string {
    const { sketch, wish } = this;
    sketch.group('Battery, its ground on the body, and the fuse');
    const battery = sketch.part('G', [
      ['type', 'battery'],
      ['name', 'battery'],
      ['place', 'battery'],
    ]);
    const ground = sketch.part('GP', [
      ['type', 'ground'],
      ['name', 'battery ground on the body'],
      ['place', 'battery'],
    ]);
    const fuse = sketch.part('F', [
      ['type', 'fuse'],
      ['name', fit(`fuse ${wish.title}`)],
      ['rating', `${wish.fuseAmps} A`],
      ['place', 'fuse box'],
    ]);
    sketch.wire(`${battery}.31`, ground, 16, 0.4, 'battery - to the body');
    sketch.wire(`${battery}.30`, `${fuse}.1`, BATTERY_MM2, 0.6, 'battery + to the fuse');
    let from = `${fuse}.2`;
    if (wish.live === 'key') {
      sketch.group('Key switch: the feed is live only with the key on');
      const control = wish.control.toLowerCase() === 'key' ? 'ignition' : 'key';
      sketch.control(control, ['off', 'on'], false, 'off is at rest');
      sketch.place('key switch', 20, 'airbag');
      const key = sketch.part(
        'S',
        [
          ['type', 'switch'],
          ['name', 'key switch'],
          ['control', control],
          ['place', 'key switch'],
        ],
        'contacts: [{between: [30, 15], closed: [on]}]',
      );
      sketch.wire(from, `${key}.30`, this.#size(1.2), 1.2, 'fuse to the key switch');
      from = `${key}.15`;
    }
    const behind = wish.live === 'key' ? 'the key switch' : 'the fuse';
    sketch.group(`Behind ${behind}: all that the fuse feeds branches off at this splice`);
    const bar = sketch.part('SP', [
      ['type', 'splice'],
      ['name', `feed splice behind ${behind}`],
      ['place', 'fuse box'],
    ]);
    const metres = wish.live === 'key' ? 1.2 : 0.2;
    sketch.wire(from, bar, this.#size(metres), metres, 'to the feed splice');
    return bar;
  }

  /** Another load on the same fuse: when it works, fuse and feed are good. */
  #also(bar: string): void {
    const { sketch, wish } = this;
    const { also } = wish;
    if (also === undefined) return;
    const good = wish.live === 'key' ? 'the fuse, the key switch and their feed' : 'the fuse and its feed';
    sketch.group(`On the same fuse: when ${also.name} works, ${good} are good`);
    const control =
      fit(`${also.name} switch`, 40) === wish.control ? 'other switch' : fit(`${also.name} switch`, 40);
    sketch.control(control, ['off', 'on'], false, 'off is at rest');
    const button = sketch.part(
      'S',
      [
        ['type', 'switch'],
        ['name', fit(`switch of ${also.name}`)],
        ['control', control],
        ['place', 'switch'],
      ],
      'contacts: [{between: [1, 2], closed: [on]}]',
    );
    const place = sketch.place('other load', 6);
    const load = this.#load(also, place);
    const ground = sketch.part('GP', [
      ['type', 'ground'],
      ['name', fit(`ground of ${also.name}`)],
      ['place', place],
    ]);
    const size = sizeFor(wish.fuseAmps, 1);
    sketch.wire(bar, `${button}.1`, size, 1.5, `feed of the switch of ${also.name}`);
    sketch.wire(`${button}.2`, `${load}.1`, size, 2, 'switch to load');
    sketch.wire(`${load}.${RETURN[also.type]}`, ground, size, 0.4, 'to ground');
  }

  /** Switch, relay or module. Gives the points that feed the loads: one for all, or one each; `ground`: where they return. */
  #driver(bar: string): { readonly feeds: readonly string[]; readonly back: string | undefined } {
    const { wish } = this;
    if (wish.through === 'relay') return { feeds: [this.#relay(bar)], back: undefined };
    if (wish.through === 'module') return { feeds: this.#module(bar), back: undefined };
    this.sketch.group(
      `${wish.control}, in the ${wish.side === 'feed' ? 'feed' : 'return to ground'} of the loads`,
    );
    const hand = this.#switch();
    if (wish.side === 'feed') {
      this.sketch.wire(bar, `${hand}.1`, this.#size(1.5), 1.5, 'feed splice to the switch');
      return { feeds: [`${hand}.2`], back: undefined };
    }
    const ground = this.#ground('ground at the switch', 'switch');
    this.sketch.wire(`${hand}.2`, ground, this.#size(0.4), 0.4, 'switch to ground');
    return { feeds: [bar], back: `${hand}.1` };
  }

  #relay(bar: string): string {
    const { sketch, wish } = this;
    sketch.group(
      `Relay, and ${wish.control} that works its coil (86, 85) ${wish.side === 'feed' ? 'from the feed' : 'to ground'}`,
    );
    sketch.place('relay carrier', 3);
    const hand = this.#switch();
    const relay = sketch.part('K', [
      ['type', 'relay'],
      ['name', fit(`relay ${wish.title}`)],
      ['place', 'relay carrier'],
    ]);
    const ground = this.#ground('ground at the relay carrier', 'relay carrier');
    sketch.wire(bar, `${relay}.30`, this.#size(0.4), 0.4, 'feed of the relay contact');
    if (wish.side === 'feed') {
      sketch.wire(bar, `${hand}.1`, this.#signal, 1.5, 'feed of the switch');
      sketch.wire(`${hand}.2`, `${relay}.86`, this.#signal, 1.5, 'switch to the coil');
      sketch.wire(`${relay}.85`, ground, this.#signal, 0.3, 'coil to ground');
    } else {
      sketch.wire(bar, `${relay}.86`, this.#signal, 0.4, 'feed of the coil');
      sketch.wire(`${relay}.85`, `${hand}.1`, this.#signal, 1.5, 'coil to the switch');
      sketch.wire(`${hand}.2`, ground, this.#signal, 1.5, 'switch to ground');
    }
    return `${relay}.87`;
  }

  #module(bar: string): readonly string[] {
    const { sketch, wish } = this;
    const high = wish.side === 'feed';
    sketch.group(
      `Module, with ${wish.control} at its input 1 ${high ? '(battery + = on)' : '(ground = on)'}, an output for each load`,
    );
    sketch.place('module', 10);
    const hand = this.#switch();
    const outputs = wish.loads.map((_, i) => `O${i + 1}`);
    const [rest, on] = [`${wish.control} ${wish.positions[0]}`, `${wish.control} on`].map((one) =>
      JSON.stringify(one),
    );
    const reads = high ? `{high: ${on}, low: ${rest}}` : `{high: ${rest}, low: ${on}}`;
    const [pull, ohms, state] = high ? ['down', '10 kohm', 'high'] : ['up', '1 kohm', 'low'];
    const module = sketch.block('A', [
      'type: module',
      `name: ${written(fit(`module ${wish.title}`))}`,
      'place: module',
      'supply: 30',
      'ground: 31',
      'inputs:',
      `  1: {pull: ${pull}, ohms: ${ohms}, reads: ${reads}}`,
      'outputs:',
      ...outputs.map((name) => `  ${name}: {side: high, on: {1: ${state}}}`),
    ]);
    const ground = this.#ground('module ground', 'module');
    sketch.wire(bar, `${module}.30`, this.#size(1.5), 1.5, 'supply of the module');
    sketch.wire(`${module}.31`, ground, this.#size(0.4), 0.4, 'module to ground');
    if (high) {
      sketch.wire(bar, `${hand}.1`, this.#signal, 1.5, 'feed of the switch');
      sketch.wire(`${hand}.2`, `${module}.1`, this.#signal, 1.5, 'switch to the module');
    } else {
      sketch.wire(`${module}.1`, `${hand}.1`, this.#signal, 1.5, 'module to the switch');
      sketch.wire(
        `${hand}.2`,
        this.#ground('ground at the switch', 'switch'),
        this.#signal,
        0.4,
        'switch to ground',
      );
    }
    return outputs.map((name) => `${module}.${name}`);
  }

  #loads({ feeds, back }: { readonly feeds: readonly string[]; readonly back: string | undefined }): void {
    const { sketch, wish } = this;
    const { loads } = wish;
    sketch.group('The way to the loads');
    sketch.place('loads', 3);
    const loom = wish.connectors === 'loom' || wish.connectors === 'both';
    const size = this.#long;
    const one = feeds.length === 1;
    let starts: readonly string[] = feeds;
    if (loom) {
      sketch.place('loom', 15);
      const pins = [
        ...feeds.map((_, i) => String(i + 1)),
        ...(back === undefined ? [] : [String(feeds.length + 1)]),
      ];
      const plug = sketch.part('X', [
        ['type', 'connector'],
        ['name', 'loom connector'],
        ['pins', pins],
        ['place', 'loom'],
      ]);
      feeds.forEach((feed, i) =>
        sketch.wire(feed, `${plug}.${i + 1}h`, size, half(wish.metres), 'to the loom connector'),
      );
      if (back !== undefined)
        sketch.wire(`${plug}.${pins.length}h`, back, size, half(wish.metres), 'back from the loom connector');
      starts = feeds.map((_, i) => `${plug}.${i + 1}c`);
      back &&= `${plug}.${pins.length}c`;
    }
    const rest = loom ? half(wish.metres) : wish.metres;
    let metres = rest;
    if (one && loads.length > 1) {
      const fork = sketch.part('SP', [
        ['type', 'splice'],
        ['name', 'feed splice at the loads'],
        ['place', 'loads'],
      ]);
      sketch.wire(starts[0]!, fork, size, rest, 'to the splice at the loads');
      starts = [fork];
      metres = 0.6;
    }
    const returns = this.#returns(back, rest);
    loads.forEach((load, i) => {
      sketch.group(fit(load.name));
      const id = this.#load(load, 'loads');
      const from = starts[one ? 0 : i]!;
      const to = returns[i % returns.length]!;
      const branch = sizeFor(wish.fuseAmps, SIGNAL_MM2);
      const wide = metres > 1 ? size : branch;
      if (wish.connectors === 'none' || wish.connectors === 'loom') {
        sketch.wire(from, `${id}.1`, wide, metres, `feed of ${load.name}`);
        sketch.wire(`${id}.${RETURN[load.type]}`, to, branch, 0.5, 'to ground');
        return;
      }
      const plug = sketch.part('X', [
        ['type', 'connector'],
        ['name', fit(`connector of ${load.name}`)],
        ['pins', ['1', '2']],
        ['place', 'loads'],
      ]);
      sketch.wire(from, `${plug}.1h`, wide, metres, `feed of ${load.name}`);
      sketch.wire(`${plug}.1c`, `${id}.1`, branch, 0.2, 'connector to load');
      sketch.wire(`${id}.${RETURN[load.type]}`, `${plug}.2c`, branch, 0.2, 'load to connector');
      sketch.wire(
        `${plug}.2h`,
        to,
        branch,
        0.4,
        back === undefined ? 'to ground' : 'on the way to the switch',
      );
    });
  }

  /** Where the loads return to: ground points in turn, or the splice from which the wire to the switch goes. */
  #returns(back: string | undefined, metres: number): readonly string[] {
    const { sketch, wish } = this;
    if (back === undefined)
      return Array.from({ length: wish.grounds }, (_, i) =>
        this.#ground(wish.grounds === 1 ? 'ground at the loads' : `ground ${i + 1} at the loads`, 'loads'),
      );
    const meet = sketch.part('SP', [
      ['type', 'splice'],
      ['name', 'return splice at the loads'],
      ['place', 'loads'],
    ]);
    sketch.wire(meet, back, this.#long, metres, 'return to the switch');
    return [meet];
  }

  #switch(): string {
    const { control } = this.wish;
    return this.sketch.part(
      'S',
      [
        ['type', 'switch'],
        ['name', control],
        ['control', control],
        ['place', 'switch'],
      ],
      this.#contacts,
    );
  }

  #ground(name: string, place: string): string {
    return this.sketch.part('GP', [
      ['type', 'ground'],
      ['name', name],
      ['place', place],
    ]);
  }

  #load({ type, name, figure }: OwnLoad, place: string): string {
    const keys: Keys = [['type', type], ['name', fit(name)], figure, ['place', place]];
    return this.sketch.part(LETTERS[type], keys);
  }
}

function contacts(closed: readonly string[]): string {
  return `contacts: [{between: [1, 2], closed: [${closed
    .map((one) => JSON.stringify(one))
    .join(', ')
    .replace(/"([\p{L}\p{N}][\p{L}\p{N} ._/()+-]*)"/gu, '$1')}]}]`;
}

function half(metres: number): number {
  return Number(Math.max(metres / 2, 0.1).toPrecision(3));
}

/** A name of at most so many characters, cut at a word where it can be. */
function fit(name: string, most = 80): string {
  if (name.length <= most) return name;
  const cut = name.slice(0, most);
  return cut.slice(0, Math.max(cut.lastIndexOf(' '), most / 2)).trim();
}
