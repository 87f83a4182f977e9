/** Lines of electronic modules: what a test lamp or a jumper could do to them. Supply and ground of a module are plain lines. */
import type { Circuit, Module, PointId } from '../circuit/circuit.js';
import { terminalsOf } from '../circuit/circuit.js';
import type { SetUp } from '../session/setup.js';
import type { CautionId } from './caution-texts.js';
import { plainPoint, reachable } from './live-line.js';

interface SignalEnd {
  readonly module: Module;
  readonly terminal: string;
}

/** Is the point on a signal line of a module that is connected? Then a test lamp there is too much current. */
export function testLampCautions(
  circuit: Circuit,
  setUp: SetUp,
  points: readonly PointId[],
): readonly CautionId[] {
  return points.some((point) => signalEnds(circuit, setUp, point).length > 0) ? ['test-lamp-module'] : [];
}

/** A jumper that ties an output to the rail it does not switch can destroy it; other signal lines ask for care. */
export function jumperModuleCautions(
  circuit: Circuit,
  setUp: SetUp,
  between: readonly [PointId, PointId],
): readonly CautionId[] {
  const rail = (start: PointId): ReadonlySet<PointId> => reachable(circuit, setUp, start, 'metal');
  const [feed, ground] = [rail('bat+'), rail('bat-')];
  const ids = new Set<CautionId>();
  between.forEach((point, index) => {
    const other = plainPoint(circuit, between[1 - index]!);
    for (const { module, terminal } of signalEnds(circuit, setUp, point)) {
      const output = module.outputs.find((one) => one.terminal === terminal);
      const against = output?.side === 'low' ? feed : ground;
      ids.add(output !== undefined && against.has(other) ? 'jumper-module-output' : 'jumper-module');
    }
  });
  return [...ids];
}

function signalEnds(circuit: Circuit, setUp: SetUp, point: PointId): readonly SignalEnd[] {
  const modules = [...circuit.parts.values()].filter(
    (part) => part.type === 'module' && !setUp.out.has(part.id),
  );
  if (modules.length === 0) return [];
  const line = reachable(circuit, setUp, point, 'line');
  return modules.flatMap((module) =>
    module.type !== 'module'
      ? []
      : terminalsOf(module)
          .filter((terminal) => terminal !== module.supply && terminal !== module.ground)
          .filter((terminal) => line.has(`${module.id}.${terminal}`))
          .map((terminal) => ({ module, terminal })),
  );
}
