// Writes the schemas of schema/ into src/read/schemas.ts, so that the compiler reads no file to check one.
// Run it after a change in schema/; a test says when that was forgotten.

import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const names = readdirSync(join(root, 'schema'))
  .filter(
    (file) =>
      file.endsWith('.schema.json') && !/^(?:compiled-|job-|guard-|release|comparison|records-|reprint)/.test(file),
  ) // these are no files of a book
  .map((file) => file.replace('.schema.json', ''))
  .sort();

const quote = (text) => `'${text.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`;
const lines = names.map((name) => {
  const schema = JSON.parse(readFileSync(join(root, 'schema', `${name}.schema.json`), 'utf8'));
  return `  ${name}:\n    ${quote(JSON.stringify(schema))},`;
});

const target = join(root, 'src', 'read', 'schemas.ts');
writeFileSync(
  target,
  `// The schemas of schema/ as text. Made by tests/scripts/embed-schemas.mjs; change those files, not this one.

/** One kind of file, or \`common\` for what several share. */
export type SchemaName =
${names.map((name) => `  | '${name}'`).join('\n')};

/** Kinds of file. */
export type FileKind = Exclude<SchemaName, 'common'>;

/** By kind, the JSON text of its schema. */
export const schemaTexts: Readonly<Record<SchemaName, string>> = {
${lines.join('\n')}
};
`,
);
execFileSync(process.execPath, [
  join(root, 'node_modules', '@biomejs', 'biome', 'bin', 'biome'),
  'format',
  '--write',
  target,
]);
