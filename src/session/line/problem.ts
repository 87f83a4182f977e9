/** A line that cannot be understood, and why. */

/**
 * Thrown inside the line parser only, and turned into a result at its door (`parseLine`): a slip can come up four calls
 * deep, and passing results by hand through every one of them hid the grammar.
 */
export class LineProblem extends Error {
  /** `at`: offset of the trouble in the line, 0 = its first character. */
  constructor(
    readonly at: number,
    override readonly message: string,
    readonly mend: string,
  ) {
    super(message);
  }
}
