/** How much current a wire stands, and which sizes are sold. */

/**
 * Amperes that a single PVC wire in free air carries all day at 30 °C: DIN VDE 0298-4, single-core cables (from memory).
 * Bundled wires carry less: good for the plain cases.
 */
export const CARRIES: readonly (readonly [mm2: number, amps: number])[] = [
  [0.35, 8],
  [0.5, 12],
  [0.75, 15],
  [1, 19],
  [1.5, 24],
  [2.5, 32],
  [4, 42],
  [6, 54],
  [10, 73],
  [16, 98],
  [25, 129],
  [35, 158],
  [50, 198],
];

/** Sizes that are sold, mm2 (ISO 6722, from memory). */
export const SIZES: readonly number[] = [0.35, 0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120];

/** Amperes for any size; straight between the rows of the table. */
export function carries(mm2: number): number {
  const above = CARRIES.findIndex(([size]) => size >= mm2);
  if (above === 0) return (CARRIES[0]![1] * mm2) / CARRIES[0]![0];
  const [low, high] = above < 0 ? CARRIES.slice(-2) : [CARRIES[above - 1]!, CARRIES[above]!];
  const [[fromSize, fromAmps], [toSize, toAmps]] = [low!, high!];
  return fromAmps + ((toAmps - fromAmps) * (mm2 - fromSize)) / (toSize - fromSize);
}

/** The smallest size that is sold, carries so many amperes and is at least so thick; the thickest where none does. */
export function sizeFor(amps: number, atLeast = 0): number {
  return SIZES.find((mm2) => mm2 >= atLeast && carries(mm2) >= amps) ?? SIZES.at(-1)!;
}

/** Ohms of a metre of copper wire of 1 mm² at 20 °C: IEC 60028. */
const COPPER = 0.017241;
/**
 * Volts a wire of a 12 V system may lose here, a little below the practice of 0.2 V for each cable (US Navy NAVEDTRA 14050); other
 * systems in proportion.
 */
const DROP = 0.17;

/** The smallest size that is sold and loses no more than practice allows on these metres; the thickest where none does. */
export function sizeByDrop(amps: number, metres: number, volts: number): number {
  const least = (COPPER * metres * amps) / ((DROP * volts) / 12);
  return SIZES.find((mm2) => mm2 >= least) ?? SIZES.at(-1)!;
}

/** A fuse holds this much of its rating for minutes on end: 135 % for up to half an hour (ISO 8820-3, second-hand). */
const HELD = 1.35;

/** For a wire that carries all that a fuse lets through: thick enough for the fuse and for its volts. */
export function feedSize(fuseAmps: number, amps: number, metres: number, volts: number): number {
  return sizeFor(fuseAmps * HELD, sizeByDrop(amps, metres, volts));
}
