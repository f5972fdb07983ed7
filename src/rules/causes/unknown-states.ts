// A state that nothing says is missed at each step that needs it, and with it all that follows from it by physics. One of these
// speaks: whoever says the state at the start mends the others as well.

import type { Diagnostic } from '../../diagnostic/diagnostic.js';
import type { Book } from '../../model/book.js';
import type { StateTest } from '../../model/conditions.js';
import { joinTo } from './followers.js';

/** Joins what follows from a state that nothing says to the first step of the same file that misses it. */
export function joinUnknown(diagnostics: readonly Diagnostic[], book: Book): readonly Diagnostic[] {
  const missing = diagnostics
    .filter(({ severity, note }) => severity === 'error' && isUnsaid(note ?? ''))
    .map((diagnostic) => ({ diagnostic, wants: wantsOf(diagnostic) }))
    .filter(({ wants }) => wants.length > 0);
  return joinTo(diagnostics, (diagnostic) => {
    const own = missing.find((one) => one.diagnostic === diagnostic);
    if (!own) return undefined;
    const { file, start } = diagnostic.at;
    const earlier = missing.filter(({ diagnostic: { at } }) => at.file === file && at.start < start);
    return earlier.find(({ wants }) => own.wants.every((want) => wants.some((first) => gives(first, want, book))))
      ?.diagnostic;
  });
}

/** Whether nothing but silence is the reason: no step took the state away, and the start says nothing else. */
function isUnsaid(note: string): boolean {
  return note.startsWith('Nothing before says what ') && !/ From the start |After step /.test(note);
}

/** A state with the values of which it must have one. */
interface Want {
  readonly state: string;
  readonly values: readonly string[];
}

/** What a message says that must be: `` `engine` may be `off` and must be `low-idle` or `working-speed` ``. */
function wantsOf({ message }: Diagnostic): readonly Want[] {
  const clauses = [...message.matchAll(/`([^`]+)` may be [^;]*? and must be ((?:(?:, | or )?`[^`]+`)+)/g)];
  return clauses.map(([, state = '', values = '']) => ({
    state,
    values: [...values.matchAll(/`([^`]+)`/g)].map(([, value = '']) => value),
  }));
}

/** Whether a machine that has the first also has the second, as it is or by physics. */
function gives(first: Want, second: Want, { physics }: Book): boolean {
  if (first.state === second.state) return isWithin(first.values, second.values);
  return physics.some(({ when, then }) => {
    const [cause, ...others] = when.kind === 'map' ? when.conditions : [];
    const effect = then.kind === 'map' ? then.conditions.find(({ state }) => state.value === second.state) : undefined;
    if (!cause || others.length > 0 || !effect || cause.state.value !== first.state) return false;
    return isWithin(first.values, wordsOf(cause.test)) && isWithin(wordsOf(effect.test), second.values);
  });
}

function isWithin(inner: readonly string[], outer: readonly string[]): boolean {
  return inner.length > 0 && inner.every((value) => outer.includes(value));
}

function wordsOf(test: StateTest): readonly string[] {
  return test.kind === 'words' ? test.words.map(({ value }) => value) : [];
}
