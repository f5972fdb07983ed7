// How ids look: `lower_snake` for what expressions use, `kebab-case` for steps and files. Where one is used is not looked at.

import { whyNoName } from '../../calc/expression/parse.js';
import type { Located, Span } from '../../text/source.js';
import type { YamlScalar } from '../tree.js';
import { type Reading, report } from './reading.js';

/** Reports a name of a value, parameter, column or word that an expression or a text could not use. */
export function checkName(reading: Reading, key: YamlScalar): void {
  const name = key.text.value;
  const snake = name
    .trim()
    .replaceAll(/([a-z0-9])([A-Z])/g, '$1_$2')
    .toLowerCase()
    .replaceAll(/[\s-]+/g, '_');
  const why = name === snake ? whyNoName(name) : 'names are `lower_snake`: small letters, digits and `_`';
  if (why === undefined) return;
  const isMended = name !== snake && whyNoName(snake) === undefined;
  report(reading, {
    code: 'bad-name',
    message: `\`${name}\` cannot be a name: ${why}`,
    at: key.at,
    help:
      sideHelp(name) ??
      (isMended
        ? `Call it \`${snake}\`, here and where it is used.`
        : 'Give it another name, here and where it is used.'),
    ...(isMended
      ? { fixes: [{ title: `Call it \`${snake}\``, edits: [{ at: key.at, text: snake }], safe: false }] }
      : {}),
  });
}

/** For a name with braces, in which `for-each` has put nothing in. */
function sideHelp(name: string): string | undefined {
  const side = /\{\s*([^{}]*?)\s*\}/.exec(name)?.[1];
  if (side === undefined) return undefined;
  return `Braces stand for what \`for-each\` gives, and it gives no \`${side}\`: mend one of the two, as in \`for-each: { ${side || 'side'}: [left, right] }\`.`;
}

/** Where a branch may lead besides a step: no step may be called so. */
export const endNames = ['done', 'stop', 'call-service'] as const;

/** Reports an id of a step that is not `kebab-case`, or that an end has. */
export function checkStepId(reading: Reading, id: Located<string>): void {
  if ((endNames as readonly string[]).includes(id.value)) {
    report(reading, {
      code: 'reserved-id',
      message: `No step can be called \`${id.value}\`, since that is an end`,
      at: id.at,
      help: 'Give the step another id.',
    });
    return;
  }
  checkKebab(reading, id, 'a step');
}

/** Reports an id that is not `kebab-case`. `what` names what has it: `a step`, `a procedure`. */
export function checkKebab(reading: Reading, id: Located<string>, what: string): void {
  if (/^[a-z0-9]+(?:-[a-z0-9]+)*$/.test(id.value)) return;
  const kebab = id.value
    .trim()
    .replaceAll(/([a-z0-9])([A-Z])/g, '$1-$2')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '');
  report(reading, {
    code: 'bad-name',
    message: `\`${id.value}\` cannot be the id of ${what}: ids are small letters and digits joined by \`-\``,
    at: id.at,
    ...filledHelp(
      sideHelp(id.value) ?? (kebab === '' ? undefined : `Call it \`${kebab}\`, here and where it is used.`),
    ),
  });
}

function filledHelp(help: string | undefined): { readonly help?: string } {
  return help === undefined ? {} : { help };
}

/** Reports every id after the first that stands more than once among `ids`. */
export function checkTwice(reading: Reading, ids: readonly Located<string>[], what: string): void {
  const first = new Map<string, Span>();
  for (const { value, at } of ids) {
    const before = first.get(value);
    if (!before) first.set(value, at);
    else {
      report(reading, {
        code: 'duplicate-id',
        message: `Two ${what} have the id \`${value}\``,
        at,
        related: [{ message: 'The first one', at: before }],
        help: 'Give one of them another id.',
      });
    }
  }
}
