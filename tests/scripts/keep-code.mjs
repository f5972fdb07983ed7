// Runs the built program once and keeps what the engine compiled on the way, for the next time.
//   node tests/scripts/keep-code.mjs check procedures

import { writeFileSync } from 'node:fs';
import process from 'node:process';
import { compileWhole, keptCode, startWhole } from '../../dist/commands/whole.js';

const program = compileWhole();
startWhole(program);
process.on('exit', (code) => {
  writeFileSync(keptCode, program.createCachedData());
  // what is wrong with the book that is checked stops no build
  if (code === 1) process.exitCode = 0;
});
