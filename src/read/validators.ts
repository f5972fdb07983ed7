// The validators of the schemas, compiled when they are first asked for. Compiling them takes longer than checking a book with
// them, so the built program has a module in the place of this one that was written out when it was built:
// tests/scripts/bundle-program.mjs.

import type { Ajv2020, ValidateFunction } from 'ajv/dist/2020.js';
import { newCompiler } from './schema-compiler.js';
import type { FileKind } from './schemas.js';

// one compiler for the whole run
let compiler: Ajv2020 | undefined;

/** Tells whether a plain value is as the schema of its kind of file wants it, and leaves in `errors` where it is not. */
export function validatorOf(kind: FileKind): ValidateFunction {
  compiler ??= newCompiler();
  const validate = compiler.getSchema(`${kind}.schema.json`);
  if (!validate) throw new Error(`No schema for ${kind}`);
  return validate;
}
