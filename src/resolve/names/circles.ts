// Circles: procedures that run themselves, values worked out from themselves.

import { joinHyphens } from '../../calc/expression/hyphens.js';
import { namesIn } from '../../calc/expression/names.js';
import type { ResolveCode } from '../../diagnostic/resolving-codes.js';
import type { Book } from '../../model/book.js';
import type { Procedure } from '../../model/procedure.js';
import type { Located, Span } from '../../text/source.js';
import { spanWithin } from '../../text/source.js';
import type { Report } from '../faults.js';

/** What leads from where to where, and the place at which it says so. */
type Graph = ReadonlyMap<string, readonly Located<string>[]>;

interface Words {
  readonly code: ResolveCode;
  readonly say: (path: string) => string;
  readonly help: string;
}

/** Reports every circle of runs and of derived values, each once. */
export function checkCircles(book: Book, report: Report): void {
  const runs = new Map(
    [...book.procedures.values()].map(({ id, steps }) => [id, steps.flatMap(({ run }) => run ?? [])]),
  );
  reportCircles(runs, report, {
    code: 'circular-run',
    say: (path) => `A procedure runs itself: ${path}`,
    help: 'Take one of these `run` steps out, or put what both need into a procedure of its own.',
  });
  for (const procedure of book.procedures.values()) {
    reportCircles(derivations(procedure), report, {
      code: 'circular-value',
      say: (path) => `A value is worked out from itself: ${path}`,
      help: 'Read one of them instead of working it out.',
    });
  }
}

function derivations({ values }: Procedure): Graph {
  const ids = new Set(values.map(({ id }) => id));
  return new Map(
    values.map(({ id, from }) => {
      const names = from ? namesIn(joinHyphens(from.expr, { isName: (path) => ids.has(path) })) : [];
      return [
        id,
        names.flatMap(({ path, start, end }) =>
          from && ids.has(path) ? [{ value: path, at: spanWithin(from.source, start, end) }] : [],
        ),
      ];
    }),
  );
}

function reportCircles(graph: Graph, report: Report, words: Words): void {
  const done = new Set<string>();
  for (const start of [...graph.keys()].sort())
    follow(graph, { start, done, path: [] }, (circle, at) => {
      const path = circle.map((name) => `\`${name}\``).join(', then ');
      report({ code: words.code, message: words.say(path), at, help: words.help });
    });
}

interface Walk {
  readonly start: string;
  readonly done: Set<string>;
  readonly path: readonly string[];
}

// depth first; a name that was left is in no circle that was not found before
function follow(graph: Graph, { start, done, path }: Walk, found: (circle: readonly string[], at: Span) => void): void {
  if (done.has(start)) return;
  const own = [...path, start];
  for (const { value, at } of graph.get(start) ?? []) {
    const back = own.indexOf(value);
    if (back >= 0) found([...own.slice(back), value], at);
    else if (graph.has(value)) follow(graph, { start: value, done, path: own }, found);
  }
  done.add(start);
}
