// The whole program in one file, as the build puts it together, and what the engine made of it while it checked a book then.
// Compiling is a seventh of a short run; code that is kept is taken as it is by the engine that made it, and no other.

import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Script } from 'node:vm';
import { tuneEngine } from './engine.js';

const here = import.meta.dirname;

/** Where the build puts the program, and the code kept for it. */
export const wholeProgram = join(here, 'whole.cjs');
export const keptCode = join(here, 'whole.code');

/** The program ready to be started. Code of another engine, or of one set otherwise, is not taken: it is compiled then as ever. */
export function compileWhole(): Script {
  // kept code is good for an engine that is set in the same way
  tuneEngine();
  const source = readFileSync(wholeProgram, 'utf8');
  return new Script(`(function (require, __dirname, programUrl) {${source}\n})`, {
    filename: wholeProgram,
    ...(existsSync(keptCode) ? { cachedData: readFileSync(keptCode) } : {}),
  });
}

/** Starts it with the words of this process. */
export function startWhole(program: Script): void {
  program.runInThisContext()(createRequire(wholeProgram), here, pathToFileURL(wholeProgram).href);
}
