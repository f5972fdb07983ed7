// The program: this process's words, streams and exit code around `run`.

import process from 'node:process';
import { run } from './program.js';
import { processTerminal } from './terminal.js';

// Whoever reads the output may have seen enough (`stepgauge check | head`); that is no fault.
process.stdout.on('error', (fault: NodeJS.ErrnoException) => {
  if (fault.code !== 'EPIPE') throw fault;
  process.exitCode = 0;
});
// Set, not called: the streams are written out before the process ends.
void run(process.argv.slice(2), processTerminal(process.env)).then((code) => {
  process.exitCode = code;
});
