/**
 * Isolating a short without power: ohms to body and between neighbours with the fuse out; then with the connectors parted one
 * after the other; then section by section, with everything that ends the section parted. Never on a line that may be live.
 */
import type { Circuit, Part, PointId } from '../../circuit/circuit.js';
import type { SetUp } from '../../session/setup.js';
import { atRest } from '../../session/setup.js';
import type { Candidate, Scope } from '../candidate.js';
import { BLANK } from '../candidate.js';
import { liftedGround, plainPoint, reachable } from '../live-line.js';
import { isPluggedIn } from './openings.js';

export function isolation(scope: Scope): Candidate[] {
  const dead = new DeadLines(scope);
  return [...linesWhole(scope, dead), ...connectorsParted(scope, dead), ...sections(scope, dead)];
}

/** From every point to body, nothing parted but what makes it dead; through the switch as it stood, and at rest. */
function linesWhole({ bench, conditions, points }: Scope, dead: DeadLines): Candidate[] {
  const asItWas = conditions.map(({ setUp }) => ({ ...setUp, engine: 'off' }) as const);
  return [atRest(bench.circuit), ...asItWas].flatMap((setUp) =>
    points.flatMap(({ point }) => ohms(dead, setUp, point, 'body')),
  );
}

/** Each connector parted alone: its pins to body, and each to its neighbour, on both sides. */
function connectorsParted({ bench, parts, points }: Scope, dead: DeadLines): Candidate[] {
  const open = new Set(points.map(({ point }) => point));
  return parts.flatMap((part) => {
    const parted: SetUp = { ...atRest(bench.circuit), unplugged: new Set([part.id]) };
    return pairsAt(part)
      .filter((pair) => pair.every((point) => point === 'body' || open.has(point)))
      .flatMap(([red, black]) => ohms(dead, parted, red, black));
  });
}

/** Pins to body and pins to their neighbours, side by side. */
function pairsAt(part: Part): readonly (readonly [PointId, PointId])[] {
  if (part.type !== 'connector') return [];
  return ['h', 'c'].flatMap((side) => {
    const pins = part.pins.map((pin) => `${part.id}.${pin}${side}`);
    return [
      ...pins.map((pin) => [pin, 'body'] as const),
      ...pins.slice(1).map((pin, i) => [pins[i]!, pin] as const),
    ];
  });
}

/** Each stretch between connectors by itself, every control at rest. */
function sections({ bench, parts, points }: Scope, dead: DeadLines): Candidate[] {
  const { circuit } = bench;
  const rest = atRest(circuit);
  const open = new Set(points.map(({ point }) => point));
  const fuses = parts.filter(({ type }) => type === 'fuse').map(({ id }) => [`${id}.2`, 'body'] as const);
  return [...parts.flatMap((part) => pairsAt(part)), ...fuses]
    .filter((pair) => pair.every((point) => point === 'body' || open.has(point)))
    .flatMap(([red, black]) => {
      const ends = [red, black].flatMap((point) => [...endsOf(circuit, rest, point)]);
      const usable = ends.every((id) => parts.some((part) => part.id === id));
      if (!usable) return [];
      const type = (id: string) => circuit.parts.get(id)!.type;
      const alone: SetUp = {
        ...rest,
        unplugged: new Set(ends.filter((id) => type(id) === 'connector')),
        out: new Set(ends.filter((id) => type(id) !== 'connector')),
      };
      return ohms(dead, alone, red, black, 'section alone: ');
    });
}

/** Connectors and plugged-in items in which the stretch around a point ends. */
function endsOf(circuit: Circuit, setUp: SetUp, point: PointId): ReadonlySet<string> {
  const ends = new Set<string>();
  if (point === 'body') return ends;
  const seen = new Set<PointId>([point]);
  for (const at of seen) {
    const part = circuit.parts.get(at.split('.')[0]!);
    if (part?.type === 'ground' || part?.type === 'battery') continue;
    if (part !== undefined && (part.type === 'connector' || isPluggedIn(part))) ends.add(part.id);
    if (part?.type === 'switch') {
      for (const { between, closed } of part.contacts) {
        const [a, b] = between.map((terminal) => `${part.id}.${terminal}`) as [string, string];
        if (!closed.includes(setUp.controls.get(part.control) ?? '')) continue;
        if (at === a) seen.add(b);
        if (at === b) seen.add(a);
      }
    }
    for (const next of wiredTo(circuit).get(at) ?? []) seen.add(next);
  }
  return ends;
}

const wired = new WeakMap<Circuit, ReadonlyMap<PointId, readonly PointId[]>>();

/** The other ends of the wires at each point. */
function wiredTo(circuit: Circuit): ReadonlyMap<PointId, readonly PointId[]> {
  const known = wired.get(circuit);
  if (known !== undefined) return known;
  const ends = new Map<PointId, PointId[]>();
  for (const { from, to } of circuit.wires)
    for (const [one, other] of [
      [from, to],
      [to, from],
    ] as const) {
      const there = ends.get(one);
      if (there === undefined) ends.set(one, [other]);
      else there.push(other);
    }
  wired.set(circuit, ends);
  return ends;
}

function ohms(dead: DeadLines, wanted: SetUp, red: PointId, black: PointId, words = ''): Candidate[] {
  const setUp = dead.make(wanted, [red, black]);
  // With its clamps off the posts of the battery are as live as ever.
  if (setUp === undefined || [red, black].some((point) => dead.isPost(point))) return [];
  return [
    {
      line: `ohms ${red} ${black}`,
      words: `${words}ohms between ${red} and ${black === 'body' ? 'body metal' : black}, ${stateWords(setUp)}`,
      setUp,
      reading: { kind: 'ohms', red, black, value: BLANK },
      bare: 'ohms',
      at: [red, black],
    },
  ];
}

function stateWords({ out, unplugged }: SetUp): string {
  const words = [
    ...(out.size > 0 ? [`${[...out].join(', ')} out`] : []),
    ...(unplugged.size > 0 ? [`${[...unplugged].join(', ')} unplugged`] : []),
  ];
  return words.length === 0 ? 'everything off' : words.join(', ');
}

/** Ways to make a line dead: everything off, a fuse out, the battery off. */
class DeadLines {
  private readonly live = new Map<string, ReadonlySet<PointId>>();
  private readonly ways: readonly string[];
  private readonly rest: SetUp['controls'];

  constructor(private readonly scope: Scope) {
    const named = (type: Part['type']) =>
      scope.parts.filter((part) => part.type === type).map(({ id }) => id);
    this.ways = [...named('fuse'), ...named('battery')];
    this.rest = atRest(scope.bench.circuit).controls;
  }

  /** The set-up with as little taken out as makes these points dead; undefined where nothing within reach does. */
  make(setUp: SetUp, points: readonly PointId[]): SetUp | undefined {
    const off = [...setUp.controls].every(([control, position]) => this.rest.get(control) === position);
    // With a control worked something is fed: then the supply goes first, and never only the switch.
    for (const way of off ? [undefined, ...this.ways] : this.ways) {
      const tried = way === undefined ? setUp : { ...setUp, out: new Set([...setUp.out, way]) };
      const live = this.liveIn(tried);
      if (points.every((point) => point === 'body' || !live.has(plainPoint(this.scope.bench.circuit, point))))
        return tried;
    }
    return undefined;
  }

  isPost(point: PointId): boolean {
    return (
      point === 'bat+' ||
      point === 'bat-' ||
      this.scope.bench.circuit.parts.get(point.split('.')[0]!)?.type === 'battery'
    );
  }

  private liveIn(setUp: SetUp): ReadonlySet<PointId> {
    const { circuit } = this.scope.bench;
    const battery = [...circuit.parts.values()].find(({ type }) => type === 'battery');
    if (battery === undefined || setUp.out.has(battery.id)) return new Set();
    const key = [[...setUp.controls.values()], [...setUp.out], [...setUp.unplugged]].join('|');
    let live = this.live.get(key);
    if (live === undefined)
      this.live.set(
        key,
        (live = new Set([...reachable(circuit, setUp, 'bat+', 'any'), ...liftedGround(circuit, setUp)])),
      );
    return live;
  }
}
