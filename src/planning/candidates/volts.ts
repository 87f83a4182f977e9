/**
 * Volts where the current flows: every point against both battery posts, and the drop across every contact, wire and item with
 * a probe on each side of it. Full volts at a point clear little; a drop under load finds what steals.
 */
import { terminalsOf } from '../../circuit/circuit.js';
import type { SetUp } from '../../session/setup.js';
import type { Candidate, Scope } from '../candidate.js';
import { BLANK } from '../candidate.js';

/** In the failed conditions, everything plugged. */
export function voltages(scope: Scope): Candidate[] {
  const ends = drops(scope);
  return scope.conditions.flatMap(({ setUp }) => [
    ...scope.points.flatMap(({ point }) => againstPosts(scope, setUp, point)),
    ...ends.map(([red, black]) => volts(scope, setUp, red, black)),
  ]);
}

/** The battery's own volts in all these set-ups: at rest and loaded they tell a flat battery from a weak one. */
export function batteryVolts(scope: Scope, setUps: readonly SetUp[]): Candidate[] {
  return setUps.map((setUp) => volts(scope, setUp, 'bat+', 'bat-'));
}

/** A point against the negative post, and the positive post against the point: what the feed side has lost so far. */
export function againstPosts(scope: Scope, setUp: SetUp, point: string): Candidate[] {
  const plain = volts(scope, setUp, point, 'bat-');
  return point === 'bat+' ? [plain] : [plain, volts(scope, setUp, 'bat+', point)];
}

function volts({ bench }: Scope, setUp: SetUp, red: string, black: string): Candidate {
  const { circuit } = bench;
  const called = (point: string) => {
    if (point === 'bat-') return 'battery negative';
    if (point === 'bat+') return 'battery positive';
    const part = circuit.parts.get(point.split('.')[0]!);
    return part === undefined ? point : `${point} (${part.label})`;
  };
  return {
    line: black === 'bat-' ? `volts ${red}` : `volts ${red} ${black}`,
    words: `volts, red ${called(red)}, black ${called(black)}`,
    setUp,
    reading: { kind: 'volts', red, black, value: BLANK },
    bare: black === 'bat-' ? 'probe' : 'far-probe',
    at: [red, black],
  };
}

/** Pairs of points with one thing between them: a contact, a wire, a fuse, a switch, a load. */
function drops({ bench, points }: Scope): readonly (readonly [string, string])[] {
  const { circuit, network } = bench;
  const at = new Map<number, string>([[network.points.get('body')!, 'body']]);
  for (const { point } of points)
    at.set(network.points.get(point)!, at.get(network.points.get(point)!) ?? point);
  const pairs: (readonly [string, string])[] = [];
  for (const { owner, a, b } of network.elements) {
    const [red, black] = [at.get(a), at.get(b)];
    if (owner !== 'item' && red !== undefined && black !== undefined) pairs.push([red, black]);
  }
  const open = new Set(points.map(({ point }) => point));
  const name = (end: string) => (circuit.parts.has(end) ? end : end);
  for (const wire of circuit.wires)
    if (open.has(name(wire.from)) && open.has(name(wire.to))) pairs.push([wire.from, wire.to]);
  for (const part of circuit.parts.values()) {
    const terminals = terminalsOf(part)
      .map((terminal) => `${part.id}.${terminal}`)
      .filter((one) => open.has(one));
    if (part.type === 'battery') continue;
    for (const [i, red] of terminals.entries())
      for (const black of terminals.slice(i + 1)) pairs.push([red, black]);
  }
  return pairs;
}
