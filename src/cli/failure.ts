/** A command that cannot go on for a reason the person can mend. Anything else that is thrown is a bug. */
import { STATUS, type Status } from './io.js';

export class Failure extends Error {
  override readonly name = 'Failure';

  /**
   * @param message what happened and where
   * @param mend what to do now
   */
  constructor(
    message: string,
    readonly mend = '',
    readonly status: Status = STATUS.cannotRun,
    options?: ErrorOptions,
  ) {
    super(message, options);
  }
}
