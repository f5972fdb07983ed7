// A file or folder that cannot be used as the call asks: for the person at the terminal, no fault of the book or of ours.

import { reasonOf } from './faults.js';

/** Its message is one sentence without a full stop. The call ends with exit code 2. */
export class FileProblem extends Error {}

/** A thrown error as a `FileProblem` where it is the system's; anything else as it is. */
export function problemOf(error: unknown, what: string): unknown {
  if (error instanceof FileProblem || !(error instanceof Error)) return error;
  const { code } = error as NodeJS.ErrnoException;
  if (typeof code !== 'string' || !/^E[A-Z]+$/.test(code)) return error;
  if (code === 'ENOSPC' || code === 'EDQUOT') return new FileProblem(`${what}: the disk is full`, { cause: error });
  if (code === 'EACCES' || code === 'EPERM' || code === 'EROFS') {
    return new FileProblem(`${what}: this user may not write there`, { cause: error });
  }
  return new FileProblem(`${what}: ${reasonOf(error)}`, { cause: error });
}
