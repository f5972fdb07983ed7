// Makes validators of the schemas: at run time, or as text when the program is built.

import { _, type CodeKeywordDefinition } from 'ajv';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { findTwice } from './find-twice.js';
import { schemaTexts } from './schemas.js';

/** A compiler that knows the schemas of a book. With `source` the validators can be written out as text. */
export function newCompiler(source = false): Ajv2020 {
  const ajv = new Ajv2020({
    allErrors: true,
    verbose: true,
    strictTypes: false,
    allowMatchingProperties: true,
    // that the schemas are schemas is tested; polishing the code made of them takes longer than one run needs it for
    meta: false,
    validateSchema: false,
    code: { optimize: source, source, esm: source },
  });
  // words that editors show in place of their own
  ajv.addVocabulary(['errorMessage', 'patternErrorMessage']);
  // the usual one compares maps by their methods, and a map of an author's may have a key of such a name
  ajv.removeKeyword('uniqueItems');
  ajv.addKeyword(uniqueItems);
  for (const text of Object.values(schemaTexts)) ajv.addSchema(JSON.parse(text));
  return ajv;
}

const uniqueItems: CodeKeywordDefinition = {
  keyword: 'uniqueItems',
  type: 'array',
  schemaType: 'boolean',
  error: { message: 'stands twice', params: ({ params: { i, j } }) => _`{i: ${i}, j: ${j}}` },
  code(context) {
    const { gen, data, schema } = context;
    if (!schema) return;
    // in a text of validators it is the `findTwice` that stands there
    const find = gen.scopeValue('func', { ref: findTwice, code: _`findTwice` });
    const found = gen.const('found', _`${find}(${data})`);
    context.setParams({ i: _`${found}.i`, j: _`${found}.j` });
    context.fail(_`${found} !== undefined`);
  },
};
