// A map in place of one thing is a choice of it by rig; it may be nested.

import type { Choice } from '../../model/text.js';
import type { SourceText } from '../../text/source.js';
import type { YamlNode } from '../tree.js';
import { isBlank, located } from './part.js';

/** One thing, or a choice by rig. What `read` refuses is left out; missing where nothing is left. */
export function choiceOf<T>(
  node: YamlNode | undefined,
  read: (text: SourceText) => T | undefined,
): Choice<T> | undefined {
  if (!node || node.kind === 'list' || isBlank(node)) return undefined;
  if (node.kind === 'scalar') {
    const value = node.text.value === '' ? undefined : read(node.text);
    return value === undefined ? undefined : { kind: 'one', value, at: node.at };
  }
  const entries = node.entries.flatMap(({ key, value }) => {
    const id = located(key);
    const choice = choiceOf(value, read);
    return id && choice ? [{ key: id, value: choice }] : [];
  });
  return entries.length === 0 ? undefined : { kind: 'choice', entries, at: node.at };
}
