/** A relay that feeds its own coil stays as the set-up before has left it. */
import { expect, test } from 'vitest';
import { partCircuit } from './part-circuit.js';

const HELD = partCircuit(
  `S1: {type: switch, control: button, contacts: [{between: [1, 2], closed: [pressed]}]}
   K1: {type: relay, coil: 80 ohm}
   SP2: {type: splice}`,
  ['SP1 to S1.1', 'S1.2 to SP2', 'SP2 to K1.86', 'K1.85 to GP1', 'SP1 to K1.30', 'K1.87 to SP2'],
  'button: [out, pressed]',
);

test('when its button is out again then it may be held or dropped', () => {
  const pulled = HELD.outcomes().map(({ pulledIn }) => pulledIn);
  expect(pulled).toEqual([0, 1]);
});

test('when its button is pressed then it is pulled in', () => {
  expect(HELD.only({ controls: { button: 'pressed' } }).pulledIn).toBe(1);
});
