/** Random looms: every node hangs on the rest by at least one joint, values from milliohms to megohms. */
import fc from 'fast-check';
import type { Law } from '../../src/network/network.js';
import type { Row } from './raw-network.js';
import { battery, diode, lamp, motor, ohms } from './raw-network.js';

/** Ohms spread evenly over the decades between `from` and `to`. */
function spread(from: number, to: number): fc.Arbitrary<number> {
  return fc
    .double({ min: Math.log10(from), max: Math.log10(to), noNaN: true })
    .map((power) => Number((10 ** power).toPrecision(4)));
}

const curve = fc.oneof(
  fc.constantFrom(5, 21, 55).map((watts) => lamp(watts)),
  fc.constantFrom(1, 5).map((amps) => motor(amps)),
  fc.constant(diode()),
);

/**
 * @param least ohms of the best joint
 * @param curved whether filaments, motors and diodes occur
 */
export function randomRows(least: number, curved: boolean, nodes = 14): fc.Arbitrary<Row[]> {
  const law: fc.Arbitrary<Law> = spread(least, 1e6).map((value) => ohms(value, 0.1));
  const low: fc.Arbitrary<Law> = spread(least, 1).map((value) => ohms(value, 0.1));
  const tree = Array.from({ length: nodes - 3 }, (_, i) =>
    fc.tuple(fc.nat({ max: i + 2 }), fc.boolean(), law, low),
  );
  const chord = fc.tuple(
    fc.nat({ max: nodes - 1 }),
    fc.nat({ max: nodes - 1 }),
    curved ? fc.oneof(law, curve, curve) : law,
  );
  return fc
    .tuple(fc.tuple(...tree), fc.array(chord, { minLength: 3, maxLength: 12 }), low)
    .map(([joints, chords, strap]) => [
      ['battery', 0, 2, battery()] as Row,
      ['strap', 0, 1, strap] as Row,
      ...joints.map(([to, wire, any, good], i): Row => [`W${i}`, i + 3, to, wire ? good : any]),
      ...chords.map(([a, b, any], i): Row => [`P${i}`, a, b, any]),
    ]);
}
