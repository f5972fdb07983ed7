// A parameter that one machine or header lacks, and has under a name that is nearly the same and that no other has: it is misspelt
// in that file, wherever it is missed.

import { nearestNames } from '../diagnostic/nearest.js';
import type { Header, Machine } from '../model/book.js';
import type { Span } from '../text/source.js';
import type { Owner } from './parameter-names.js';
import type { Scene } from './scene.js';

interface Missed {
  readonly owner: Owner;
  readonly holder: Machine | Header;
  readonly id: string;
  /** Where it is named. */
  readonly at: Span;
}

/** Reports the misspelt name where it stands; gives whether there is one. */
export function reportMisspelt({ book, report }: Scene, { owner, holder, id, at }: Missed): boolean {
  const others = [...(owner === 'machine' ? book.machines : book.headers).values()].filter((one) => one !== holder);
  const own = [...holder.parameters.keys()].filter((one) => others.every(({ parameters }) => !parameters.has(one)));
  const [near, another] = nearestNames(id, own);
  const found = near === undefined || another !== undefined ? undefined : holder.parameters.get(near);
  if (!found) return false;
  report({
    code: 'missing-parameter',
    message: `\`${holder.id}\` has no parameter \`${id}\`, and has \`${found.id}\`, which no other ${owner} has`,
    at: found.idAt,
    related: [{ message: `\`${id}\` is named here`, at }],
    help: `Write \`${id}\` here; or, if \`${found.id}\` is something else, add \`${id}\` beside it.`,
    fixes: [{ title: `Write \`${id}\``, safe: false, edits: [{ at: found.idAt, text: id }] }],
  });
  return true;
}
