/** A person who errs: now and then a reading is not what the vehicle gave. */
import { sightBand, WORDS } from '../diagnosis/sights.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Action, Reading, Sight, Typed } from '../session/events.js';
import type { SetUp } from '../session/setup.js';
import type { Answer, Car } from './car.js';
import type { Draw } from './random.js';
import { pick } from './random.js';

export type Misread = 'false zero' | 'wrong pin' | 'rounded' | 'wrong word';

/** Lets a person who errs stand before any vehicle. */
export class MisreadCar implements Car {
  /** How the last answer was wrong; undefined when it was right. */
  last: Misread | undefined;

  /** @param share part of the readings that go wrong, 0 to 1 */
  constructor(
    private readonly bench: Workbench,
    private readonly car: Car,
    private readonly draw: Draw,
    public share: number,
  ) {}

  act(action: Action, after: SetUp): Promise<void> {
    return this.car.act(action, after);
  }

  async answer(setUp: SetUp, reading: Reading): Promise<Answer | undefined> {
    this.last = undefined;
    const right = await this.car.answer(setUp, reading);
    if (right === undefined || this.draw() >= this.share) return right;
    const how = pick(this.draw, waysToErr(right.reading));
    const wrong =
      how === 'wrong pin' ? await this.elsewhere(setUp, right.reading) : this.wrong(right.reading, how);
    if (wrong === undefined || JSON.stringify(wrong) === JSON.stringify(right.reading)) return right;
    this.last = how;
    return { ...right, reading: wrong };
  }

  /** The reading of another terminal of the same part, written down under the name of the right one. */
  private async elsewhere(setUp: SetUp, reading: Reading): Promise<Reading | undefined> {
    if (!('red' in reading)) return undefined;
    const part = reading.red.split('.')[0]!;
    const others = [...this.bench.network.points.keys()].filter(
      (point) => point.startsWith(`${part}.`) && point !== reading.red && point !== reading.black,
    );
    if (others.length === 0) return undefined;
    const found = await this.car.answer(setUp, { ...reading, red: pick(this.draw, others) });
    return found === undefined || !('red' in found.reading)
      ? undefined
      : { ...found.reading, red: reading.red };
  }

  private wrong(reading: Reading, how: Misread): Reading {
    switch (reading.kind) {
      case 'volts':
        return { ...reading, value: how === 'rounded' ? rounded(reading.value) : { value: 0, step: 0.01 } };
      case 'amps':
      case 'clamp':
        return { ...reading, value: { value: 0, step: 0.01 } };
      case 'ohms':
        if (how === 'rounded' && reading.value !== 'OL') return { ...reading, value: rounded(reading.value) };
        return { ...reading, value: 'OL' };
      case 'continuity':
        return { ...reading, value: 'no beep' };
      case 'test lamp':
      case 'fuse lamp':
        return { ...reading, value: 'off' };
      case 'load':
        return { ...reading, value: this.otherWord(reading.load, reading.value) };
      default:
        return reading;
    }
  }

  private otherWord(load: string, word: Sight): Sight {
    const { kind } = this.bench.network.loads.get(load)!;
    const others = WORDS[kind].filter((other) => other !== word && sightBand(kind, other).high > 0);
    return others.length === 0 ? word : pick(this.draw, others);
  }
}

function waysToErr(reading: Reading): readonly Misread[] {
  switch (reading.kind) {
    case 'load':
      return ['wrong word'];
    case 'volts':
    case 'ohms':
      return ['false zero', 'wrong pin', 'rounded'];
    case 'continuity':
    case 'test lamp':
      return ['false zero', 'wrong pin'];
    default:
      return ['false zero'];
  }
}

/** "12.00" for 12.4: rounded in the head, written down as if the display had said so. */
function rounded({ value, step }: Typed): Typed {
  return { value: Math.round(value), step: Math.min(step, 0.01) };
}
