// Which words fit which difference between a file and its schema.

import type { Diagnostic } from '../diagnostic/diagnostic.js';
import type { Fault, FaultContext } from './schema-fault.js';
import { missingKey, tooManyKeys, unknownKey, wrongKey } from './schema-keys.js';
import { wordingAt } from './schema-lookup.js';
import { duplicateEntry, emptyValue, isFlagOrWords, unknownWord, wrongForm, wrongType } from './schema-values.js';

/** The diagnostic for one difference. */
export function describeFault(found: Fault, context: FaultContext): Diagnostic {
  // the property itself knows better examples than what it refers to
  const fault = { ...found, schema: { ...found.schema, ...wordingAt(context.kind, found.place.path) } };
  switch (fault.keyword) {
    case 'additionalProperties':
      return unknownKey(fault, context);
    case 'required':
    case 'dependentRequired':
      return missingKey(fault, context);
    case 'type':
    case 'const':
      return wrongType(fault, context);
    case 'minLength':
    case 'minItems':
    case 'minProperties':
      return emptyValue(fault, context);
    case 'enum':
      return unknownWord(fault);
    case 'pattern':
      if (isFlagOrWords(fault)) return wrongType(fault, context);
      return fault.propertyName === undefined ? wrongForm(fault) : wrongKey(fault);
    case 'minimum':
      return wrongForm(fault);
    case 'uniqueItems':
      return duplicateEntry(fault);
    case 'maxProperties':
      return tooManyKeys(fault);
  }
  throw new Error(`No words for the schema keyword ${fault.keyword}`);
}
