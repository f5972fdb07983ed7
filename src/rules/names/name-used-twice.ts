// One name for two things that people must tell apart: two machines, two headers, two procedures of one machine and header.

import type { Book } from '../../model/book.js';
import type { ResolvedBook } from '../../model/resolved.js';
import type { Text } from '../../model/text.js';
import { templatesOf } from '../../model/walk.js';
import type { Span } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';

interface Named {
  readonly id: string;
  readonly name: Text;
}

interface Facts {
  readonly kind: string;
  readonly name: string;
  readonly other: string;
}

export default rule({
  id: 'name-used-twice',
  severity: 'warning',
  needs: 'book',
  *run(book, { resolved }) {
    const titled = [...book.procedures.values()].map(({ id, title }) => ({ id, name: title }));
    yield* twiceIn('machine', [...book.machines.values()], book);
    yield* twiceIn('header', [...book.headers.values()], book);
    yield* twiceIn('procedure', titled, book, (a, b) => shareRig(resolved, a, b));
  },
  say: ({ kind, name, other }: Facts) => ({
    message: `\`${name}\` is the name of the ${kind} \`${other}\` already`,
    help: 'Give each a name of its own: whoever chooses from a list sees nothing else.',
    note: 'Two that look alike in a list are taken for each other, and the numbers of the one are used on the other.',
  }),
});

function* twiceIn(
  kind: string,
  things: readonly Named[],
  book: Book,
  mayMeet: (a: string, b: string) => boolean = () => true,
): Iterable<Finding<Facts>> {
  const [language] = book.settings.languages;
  const known: { readonly id: string; readonly key: string; readonly at: Span }[] = [];
  for (const { id, name } of things) {
    // a name that is a choice differs by rig
    const [template, ...more] = templatesOf(name, language);
    if (!template || more.length > 0) continue;
    const { value, at } = template.source;
    const key = value
      .toLowerCase()
      .replaceAll(/[^\p{L}\d]+/gu, ' ')
      .trim();
    const first = known.find((one) => one.key === key && mayMeet(one.id, id));
    known.push({ id, key, at });
    if (!first) continue;
    yield {
      at,
      related: [{ message: `the ${kind} \`${first.id}\``, at: first.at }],
      data: { kind, name: value, other: first.id },
    };
  }
}

function shareRig({ variants }: ResolvedBook, a: string, b: string): boolean {
  const rigsOf = (id: string): ReadonlySet<string> =>
    new Set(
      variants
        .filter(({ procedure }) => procedure.id === id)
        .flatMap(({ rigs }) => rigs.map(({ machine, header }) => `${machine} ${header}`)),
    );
  const rigs = rigsOf(a);
  return [...rigsOf(b)].some((rig) => rigs.has(rig));
}
