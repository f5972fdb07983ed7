// Where words go: the two streams, colour where it is wanted, and progress on a terminal only.

import { stderr, stdout } from 'node:process';

/** What a command writes to, so that tests can stand in for a terminal. */
export interface Terminal {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  readonly color: boolean;
  /** One line that is written over; empty text clears it. Does nothing where nobody watches. */
  readonly progress: (text: string) => void;
}

/** The terminal of this process: colour on a terminal, unless `NO_COLOR` is set. */
export function processTerminal(environment: NodeJS.ProcessEnv): Terminal {
  const noColor = (environment.NO_COLOR ?? '') !== '';
  const forced = (environment.FORCE_COLOR ?? '0') !== '0';
  return {
    out: (text) => void stdout.write(text),
    err: (text) => void stderr.write(text),
    color: !noColor && (forced || stdout.isTTY === true),
    progress: stderr.isTTY === true ? (text) => void stderr.write(`\r\u001b[2K${text}`) : () => undefined,
  };
}
