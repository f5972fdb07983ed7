// What a tool is called in the words of a step: its label up to a comma, in any number.

import type { Book, Tool } from '../../model/book.js';
import { templatesOf } from '../../model/walk.js';

/** Finds the tool's name in a text of the book's first language; undefined where its label has no words. */
export function toolPattern({ label }: Tool, book: Book): RegExp | undefined {
  const [template] = templatesOf(label, book.settings.languages[0]);
  const name = template?.source.value.split(',')[0]?.trim().toLowerCase() ?? '';
  if (!/\p{L}{3}/u.test(name)) return undefined;
  return new RegExp(`(?<!\\p{L})${name.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&')}(?:s|es)?(?!\\p{L})`, 'iu');
}
