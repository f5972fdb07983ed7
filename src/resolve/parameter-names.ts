// Names that reach parameters of machines, headers and crops.

import type { Vocabulary } from './vocabulary.js';

/** Whose file an expression stands in. */
export type Owner = 'machine' | 'header';

/** Whether a name reaches a parameter of any machine, header or crop of the book. */
export function isParameter(vocabulary: Vocabulary, path: string, owner?: Owner): boolean {
  const full = fullPath(path, owner);
  const [start, id = ''] = splitPath(full);
  if (start === 'machine') return vocabulary.machineParameters.has(id);
  if (start === 'header') return vocabulary.headerParameters.has(id);
  return vocabulary.crops.has(full);
}

/** Every name that reaches a parameter, as it may be written. */
export function parameterNames(vocabulary: Vocabulary, owner?: Owner): readonly string[] {
  const own = owner === 'machine' ? vocabulary.machineParameters : owner ? vocabulary.headerParameters : [];
  return [
    ...own,
    ...[...vocabulary.machineParameters].map((id) => `machine.${id}`),
    ...[...vocabulary.headerParameters].map((id) => `header.${id}`),
    ...vocabulary.crops.keys(),
  ];
}

/** The name as it is written outside its own file: `rows` in a header's file is `header.rows`. */
export function fullPath(path: string, owner: Owner | undefined): string {
  return owner && !path.includes('.') ? `${owner}.${path}` : path;
}

/** `machine.rows` as `machine` and `rows`. */
export function splitPath(path: string): readonly [string, string | undefined] {
  const dot = path.indexOf('.');
  return dot < 0 ? [path, undefined] : [path.slice(0, dot), path.slice(dot + 1)];
}
