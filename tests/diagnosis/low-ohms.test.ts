/** A few tenths of an ohm may be the meter's own leads: such a reading is open below, and bounds from above only. */
import { expect, test } from 'vitest';
import { diagnosisOf, workbenchOf } from './session-of.js';

test('when a wire reads a few tenths of an ohm to body then no leak of kilo-ohms explains that', async () => {
  const bench = await workbenchOf('door-locks');
  const lines = [
    'lock switch lock',
    'see M1 stopped',
    'see M2 stopped',
    'see M3 stopped',
    ...['out F1', 'out K1', 'unplug X1', 'unplug X2', 'unplug X3'],
    'ohms X1.4h body 0.4',
  ];
  const { suspects } = diagnosisOf(bench, lines);
  const pins = suspects.find(({ hypothesis }) => hypothesis === 'X1.4 touching X1.5')!;
  expect(pins.severities[0]!.high).toBeLessThan(10);
});
