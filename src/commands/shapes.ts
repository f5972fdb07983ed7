// Data from files against the schemas that come with the program: which shape it lacks, in words.

import { Ajv2020, type ErrorObject, type ValidateFunction } from 'ajv/dist/2020.js';
import { packageTexts } from './package-files.js';

/** Schemas of data that is no file of a book. */
export type DataSchema = 'compiled-book' | 'job-record' | 'job-wrong-pages';

const compiled = new Map<DataSchema, ValidateFunction>();

/** Where data differs from a schema; undefined where it does not. */
export function shapeFault(name: DataSchema, data: unknown): string | undefined {
  const validate = compiled.get(name) ?? compile(name);
  compiled.set(name, validate);
  return validate(data) ? undefined : say(validate.errors?.[0]);
}

function compile(name: DataSchema): ValidateFunction {
  const schema = packageTexts('schema').get(`${name}.schema.json`);
  if (schema === undefined) throw new Error(`The schema ${name} did not come with the program`);
  const ajv = new Ajv2020({ strict: false, formats: { 'date-time': isMoment } });
  return ajv.compile(JSON.parse(schema));
}

/** RFC 3339 in UTC, of a day that there is. */
function isMoment(text: string): boolean {
  const date = new Date(text);
  return /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(?:\.\d+)?Z$/.test(text) && !Number.isNaN(date.getTime())
    ? date.toISOString().slice(0, 19) === text.slice(0, 19)
    : false;
}

function say(fault: ErrorObject | undefined): string {
  if (!fault) throw new Error('A shape that does not hold has no fault');
  const place = fault.instancePath === '' ? 'at its top' : `at \`${fault.instancePath.slice(1)}\``;
  if (fault.keyword === 'additionalProperties') return `${place} it has a key \`${fault.params.additionalProperty}\``;
  return `${place} it ${fault.message}`;
}
