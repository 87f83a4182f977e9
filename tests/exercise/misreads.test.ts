import { expect, test } from 'vitest';
import type { Answer, Car } from '../../src/exercise/car.js';
import { MisreadCar } from '../../src/exercise/misreads.js';
import { random } from '../../src/exercise/random.js';
import type { Reading } from '../../src/session/events.js';
import { atRest } from '../../src/session/setup.js';
import { workbenchOf } from '../diagnosis/session-of.js';

/** Always 12.34 V, whichever point is asked, and every lamp lit. */
const STEADY: Car = {
  act: async () => undefined,
  answer: async (_, reading): Promise<Answer> => ({
    reading:
      reading.kind === 'volts'
        ? { ...reading, value: { value: 12.34, step: 0.01 } }
        : { kind: 'load', load: 'H1.54', value: 'lit' },
    battery: { value: 12.6, step: 0.01 },
  }),
};
const VOLTS: Reading = { kind: 'volts', red: 'F4.2', black: 'bat-', value: { value: 0, step: 0.01 } };

async function readings(share: number, reading: Reading) {
  const bench = await workbenchOf('stop-tail');
  const person = new MisreadCar(bench, STEADY, random(3), share);
  const list = [];
  for (let i = 0; i < 400; i++) {
    const answer = await person.answer(atRest(bench.circuit), reading);
    list.push({
      value: JSON.stringify('value' in answer!.reading && answer!.reading.value),
      how: person.last,
    });
  }
  return list;
}

test('when nobody errs then every reading is the one of the vehicle', async () => {
  const list = await readings(0, VOLTS);
  expect(new Set(list.map(({ how }) => how))).toEqual(new Set([undefined]));
  expect(new Set(list.map(({ value }) => value)).size).toBe(1);
});

test('when a third of the readings go wrong then about that many differ, and each says how', async () => {
  const list = await readings(1 / 3, { kind: 'load', load: 'H1.54', value: 'off' });
  const wrong = list.filter(({ how }) => how !== undefined);
  expect(wrong.length).toBeGreaterThan(80);
  expect(wrong.length).toBeLessThan(190);
  expect(wrong.every(({ value, how }) => value !== '"lit"' && how === 'wrong word')).toBe(true);
});

test('when volts are misread then they are a false zero or rounded to the volt', async () => {
  const wrong = (await readings(1, VOLTS)).filter(({ how }) => how !== undefined);
  expect(new Set(wrong.map(({ value }) => value))).toEqual(
    new Set(['{"value":0,"step":0.01}', '{"value":12,"step":0.01}']),
  );
});
