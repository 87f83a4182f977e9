/**
 * One vehicle to be repaired against the clock: the same for every way of working, from the same seed. What a person sees by
 * looking around costs nothing; every reading and repair after that costs what the planner would count for it.
 */
import type { Diagnosis, Suspect } from '../../../src/diagnosis/diagnosis-types.js';
import { canBlow } from '../../../src/diagnosis/faults.js';
import { drivenSetUps } from '../../../src/diagnosis/evidence.js';
import { WORDS } from '../../../src/diagnosis/sights.js';
import type { Workbench } from '../../../src/diagnosis/workbench.js';
import { drawSeverity } from '../../../src/exercise/hidden-faults.js';
import type { Physics } from '../../../src/exercise/physics.js';
import { pick, pickByWeight, random } from '../../../src/exercise/random.js';
import { SimulatedCar } from '../../../src/exercise/simulated-car.js';
import type { Candidate } from '../../../src/planning/candidate.js';
import { Costs, visitedPlaces } from '../../../src/planning/cost.js';
import { costsOf, repairMinutes } from '../../../src/planning/costs-of.js';
import type { Action, Reading } from '../../../src/session/events.js';
import type { Complaint } from '../../../src/exercise/complaint.js';
import { complaints } from '../../../src/exercise/complaint.js';
import { Mechanic } from '../../trials/mechanic.js';
import { renewal, repairAction } from '../../../src/exercise/repair-action.js';

/** Set-ups in which the owner drove before, enough for a short to blow its fuse. */
const DRIVEN = 8;

export class Job {
  minutes = 0;
  /** What the free clues leave, for every way of working. */
  clues!: Diagnosis;

  private constructor(
    readonly bench: Workbench,
    readonly car: SimulatedCar,
    readonly mechanic: Mechanic,
    readonly place: Complaint,
  ) {}

  /** Undefined when this vehicle shows nothing that anyone would complain about. */
  static async begin(bench: Workbench, physics: Physics, seed: number): Promise<Job | undefined> {
    const draw = random(seed);
    const fault = pickByWeight(draw, bench.faults, ({ weight }) => weight);
    const hidden = { fault, severity: drawSeverity(fault, draw), comesAndGoes: false };
    const car = new SimulatedCar(bench, physics, draw, [hidden], false);
    const mechanic = new Mechanic(bench, car, draw);
    const driven = drivenSetUps(bench);
    if (canBlow(fault)) for (let i = 0; i < DRIVEN; i++) await car.visit(pick(draw, driven));
    const places = complaints(bench, {
      faults: [fault.apply(hidden.severity)],
      added: [],
      absent: [],
      blown: car.openFuses,
    });
    const [place] = places;
    if (place === undefined) return undefined;
    const job = new Job(bench, car, mechanic, place);
    await mechanic.moveTo(place.setUp);
    if (await job.looksGood()) return undefined;
    for (const load of bench.network.loads.keys())
      if (load !== place.load) await mechanic.read({ kind: 'load', load, value: 'off' });
    job.clues = mechanic.diagnosis;
    return job.clues.suspects.length > 0 ? job : undefined;
  }

  get solved(): boolean {
    return this.car.hidden.length === 0;
  }

  /** Does a test of the planner's, or one like it, and counts it. */
  async test(candidate: Candidate, actions: readonly Action[]): Promise<Reading | undefined> {
    const { bench, mechanic } = this;
    this.minutes += new Costs(bench.circuit, mechanic.case).of(candidate).minutes;
    for (const action of actions) await mechanic.act(action);
    const number = await mechanic.read(candidate.reading);
    return number === undefined ? undefined : mechanic.reading(number);
  }

  /** Repairs what a suspect says, fits new fuses where any are open, and looks at the complaint again; true when it is cured. */
  async repair(suspect: Suspect): Promise<boolean> {
    const { bench, car, mechanic, place } = this;
    for (const { id, repair, part } of suspect.faults) {
      const fault = bench.faults.find((one) => one.id === id)!;
      const there = bench.circuit.parts.get(part)?.place;
      const isOpen = visitedPlaces(bench.circuit, mechanic.case)
        .flat()
        .includes(there ?? '');
      this.minutes += repairMinutes(bench.circuit, repair);
      if (there !== undefined && !isOpen) this.minutes += bench.circuit.places.get(there)?.minutes ?? 0;
      await mechanic.act(repairAction(bench, fault));
    }
    for (const [i, element] of bench.network.fuses.entries())
      if ((car.openFuses >>> i) & 1) {
        this.minutes += costsOf(bench.circuit)['fit-new'];
        await mechanic.act(renewal(bench, bench.network.elements[element]!.part));
      }
    await mechanic.moveTo(place.setUp);
    this.minutes += costsOf(bench.circuit).look;
    await this.looksGood();
    // Whether it runs as it should in this condition a person knows better than one word says: a slow speed is slow when it is good.
    return this.solved;
  }

  private async looksGood(): Promise<boolean> {
    const { bench, mechanic, place } = this;
    const number = await mechanic.read({ kind: 'load', load: place.load, value: 'off' });
    if (number === undefined) return false;
    const reading = mechanic.reading(number);
    const words = WORDS[bench.network.loads.get(place.load)!.kind];
    return reading.kind === 'load' && reading.value === (place.good === 'first' ? words[0] : words.at(-1));
  }
}
