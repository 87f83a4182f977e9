/** Why a journal cannot be opened, read or written to, with what to do about it. */

export type JournalErrorCode =
  | 'exists'
  | 'missing'
  | 'cannot-read'
  | 'cannot-write'
  | 'not-a-journal'
  | 'not-begun'
  | 'future-version'
  | 'damaged'
  | 'locked'
  | 'closed';

export class JournalError extends Error {
  override readonly name = 'JournalError';

  /**
   * @param message what happened and in which file; no full stop
   * @param mend what to do now; no full stop
   */
  constructor(
    readonly code: JournalErrorCode,
    message: string,
    readonly mend: string,
    options?: ErrorOptions,
  ) {
    super(message, options);
  }
}

/** Code of a failed system call, such as `ENOSPC`; empty for anything else. */
export function systemCode(error: unknown): string {
  const code = (error as NodeJS.ErrnoException | undefined)?.code;
  return typeof code === 'string' ? code : '';
}
