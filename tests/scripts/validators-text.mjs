// The validators of the schemas as the text of a module that does what src/read/validators.ts does. Needs the compiled program,
// and whoever bundles it, since it asks for what it needs of a package as scripts do.

import { join } from 'node:path';
import standaloneCode from 'ajv/dist/standalone/index.js';

const root = join(import.meta.dirname, '../..');

export async function validatorsText() {
  const { newCompiler } = await import(join(root, 'dist/read/schema-compiler.js'));
  const { schemaTexts } = await import(join(root, 'dist/read/schemas.js'));
  const kinds = Object.keys(schemaTexts).filter((name) => name !== 'common');
  const names = Object.fromEntries(kinds.map((kind) => [kind, `${kind}.schema.json`]));
  return [
    `import { findTwice } from './find-twice.js';`,
    standaloneCode.default(newCompiler(true), names),
    `const validators = { ${kinds.join(', ')} };`,
    'export const validatorOf = (kind) => validators[kind];',
  ].join('\n');
}
