// A book that was read with one edited file, with every place in what came of that file led back to the file before the edit.

import type { Book } from '../model/book.js';
import type { Edited } from '../text/edited.js';
import { moveBack } from '../text/moved.js';

/** Moves the parts that the edited file holds; all others stay the same objects. */
export function moveBookBack(book: Book, edited: Edited): Book {
  const { path } = edited.file;
  const waivers = book.waivers.some(({ at }) => at.file === path) ? moveBack(book.waivers, edited) : book.waivers;
  const move = <K extends keyof Book>(...keys: readonly K[]): Book => ({
    ...book,
    waivers,
    ...Object.fromEntries(keys.map((key) => [key, moveBack(book[key], edited)])),
  });
  if (path === 'instruments.yaml') return move('instruments');
  if (path === 'crops.yaml') return move('crops');
  if (path === 'states.yaml') return move('states', 'events', 'physics');
  if (path === 'safety.yaml') return move('hazards', 'bundles', 'rules', 'ends');
  if (path.startsWith('machines/')) return { ...book, waivers, machines: moveOwn(book.machines, edited) };
  if (path.startsWith('headers/')) return { ...book, waivers, headers: moveOwn(book.headers, edited) };
  if (path.endsWith('.md')) return { ...book, waivers, procedures: moveOwn(book.procedures, edited) };
  return moveBack(book, edited);
}

/** Only what stands in the edited file, or is translated by it. */
function moveOwn<T extends { readonly file: string }>(
  parts: ReadonlyMap<string, T>,
  edited: Edited,
): ReadonlyMap<string, T> {
  const isOwn = (part: T): boolean => {
    const translations =
      'translations' in part ? (part.translations as ReadonlyMap<string, { file: string }>) : new Map();
    return [part, ...translations.values()].some(({ file }) => file === edited.file.path);
  };
  return new Map([...parts].map(([id, part]) => [id, isOwn(part) ? moveBack(part, edited) : part]));
}
