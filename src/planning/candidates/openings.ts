/**
 * Something opened in the failed condition: a connector parted, a fuse or lamp taken out. What the open line shows with a meter
 * and with a test lamp as its load, and what else dies with it.
 */
import type { Circuit, Part } from '../../circuit/circuit.js';
import type { SetUp } from '../../session/setup.js';
import type { Candidate, Scope } from '../candidate.js';
import { BLANK } from '../candidate.js';
import { testLampCautions } from '../module-cautions.js';
import { pointsAt } from '../reach.js';
import { watch } from './loads.js';
import { againstPosts } from './volts.js';

export function openings(scope: Scope): Candidate[] {
  const { bench, conditions, parts } = scope;
  const list: Candidate[] = [];
  for (const { setUp } of conditions) {
    // Pulling fuses or connectors with the engine running can stall it and spark.
    if (setUp.engine === 'running') continue;
    for (const part of parts) {
      const opened = opening(part, setUp);
      if (opened === undefined) continue;
      const what = part.type === 'connector' ? `with ${part.id} unplugged, ` : `with ${part.id} out, `;
      for (const point of pointsAt(part)) {
        if (!scope.points.some((open) => open.point === point)) continue;
        list.push(...againstPosts(scope, opened, point));
        if (testLampCautions(bench.circuit, opened, [point]).length === 0)
          list.push(...POSTS.map((clip) => testLamp(bench.circuit, opened, point, clip)));
      }
      for (const load of bench.network.loads.values()) list.push(watch(bench.circuit, load, opened, what));
    }
  }
  return list;
}

function opening(part: Part, setUp: SetUp): SetUp | undefined {
  if (part.type === 'connector') return { ...setUp, unplugged: new Set([part.id]) };
  if (isPluggedIn(part)) return { ...setUp, out: new Set([part.id]) };
  return undefined;
}

/** Items made to be pulled out and pushed in by hand. */
export function isPluggedIn(part: Part): boolean {
  return ['fuse', 'lamp', 'LED lamp', 'relay', 'flasher'].includes(part.type);
}

/**
 * Supply and ground of a module loaded as they stand: asleep or dead it draws too little itself for its meter volts to tell a good
 * joint from a bad one.
 */
export function loadedModules({ bench, conditions, parts, points }: Scope): Candidate[] {
  const { circuit } = bench;
  const modules = parts.filter((part) => part.type === 'module');
  return conditions.flatMap(({ setUp }) =>
    modules.flatMap(({ id, supply, ground }) =>
      (
        [
          [supply, 'bat-'],
          [ground, 'bat+'],
        ] as const
      )
        .map(([terminal, clip]) => ({ point: `${id}.${terminal}`, clip }))
        .filter(({ point }) => points.some((open) => open.point === point))
        .map(({ point, clip }) => testLamp(circuit, setUp, point, clip))
        .concat(loadedVolts(points, setUp, id, supply, ground)),
    ),
  );
}

/** A meter beside the lamp tells of the few ohms at which a lamp is as bright as ever, in feed and ground at once. */
function loadedVolts(
  points: Scope['points'],
  setUp: SetUp,
  module: string,
  supply: string,
  ground: string,
): Candidate[] {
  const [red, black] = [`${module}.${supply}`, `${module}.${ground}`];
  if (![red, black].every((end) => points.some(({ point }) => point === end))) return [];
  return [
    {
      line: `volts loaded ${red} ${black}`,
      words: `volts with a test lamp across, both on supply and ground of ${module}: red and tip ${red}, black and clip ${black}; at full volts the lamp must be lit; the battery's volts beside it (12.4/12.5)`,
      setUp,
      reading: { kind: 'volts', red, black, value: BLANK, mode: 'loaded' },
      bare: 'loaded',
      at: [red, black],
    },
  ];
}

const POSTS = ['bat-', 'bat+'] as const;

/** The line loaded: a test lamp to a post. */
function testLamp(circuit: Circuit, setUp: SetUp, point: string, clip: (typeof POSTS)[number]): Candidate {
  const part = circuit.parts.get(point.split('.')[0]!)!;
  return {
    line: clip === 'bat-' ? `testlamp ${point}` : `testlamp ${point} bat+`,
    words: `test lamp, tip on ${point} (${part.label}), clip on battery ${clip === 'bat-' ? 'negative' : 'positive'}`,
    setUp,
    reading: { kind: 'test lamp', red: point, black: clip, value: 'off', lamp: 'filament' },
    bare: 'probe',
    at: [point],
  };
}
