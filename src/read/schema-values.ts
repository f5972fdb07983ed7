// The words for values: of the wrong kind, blank, not among the words to choose from, not in the form asked for.

import { type Diagnostic, diagnose, type Edit, type Fix } from '../diagnostic/diagnostic.js';
import { askWhetherMeant, nearestNames } from '../diagnostic/nearest.js';
import type { SourceFile, Span } from '../text/source.js';
import { quoteText } from './mended.js';
import type { Fault, FaultContext, FaultySchema } from './schema-fault.js';
import { nameOf, type Place } from './schema-places.js';
import {
  asWritten,
  describeNode,
  expectationOf,
  helpOf,
  oneOf,
  quoteIfOddWord,
  replaceBy,
  shorten,
  sortedByNearness,
  textOf,
} from './schema-words.js';
import type { FileKind } from './schemas.js';
import type { YamlNode } from './tree.js';

// keys in which an empty list must be said, by kind of file
const saidNone: Readonly<Partial<Record<FileKind, readonly string[]>>> = {
  procedure: ['tools', 'supplies', 'hazards', 'requires', 'leaves'],
};

function mustSayNone(place: Place, kind: FileKind): boolean {
  const [key = '', ...rest] = place.path;
  return rest.length === 0 && (saidNone[kind] ?? []).includes(key);
}

/** A value of another kind: a list where text is meant, a number without its unit, nothing at all. */
export function wrongType(fault: Fault, context: FaultContext): Diagnostic {
  const { place } = fault;
  const { node } = place;
  if (node.kind === 'scalar' && node.core === null && node.style === 'plain') return blankValue(fault, context);
  const expected = expectationOf(fault.schema);
  const number = node.kind === 'scalar' && typeof node.core === 'number' ? node.text.value : undefined;
  const [example] = fault.schema.examples ?? [];
  if (number !== undefined && wantsText(fault.schema) && /^[\d.]+ \S/.test(String(example))) {
    return diagnose({
      code: 'missing-unit',
      severity: 'error',
      message: `Unexpected number \`${number}\` without a unit for ${nameOf(place)}, ${expected}`,
      at: node.at,
      help: `Write the unit behind it, as in \`${String(example)}\`.`,
    });
  }
  const fix = fixOfType(node, fault.schema) ?? listOfOne(fault, context.file);
  const flag = fix || !isFlagOrWords(fault) ? undefined : helpOfFlag(fault);
  return diagnose({
    code: 'wrong-type',
    severity: 'error',
    message: `Unexpected ${describeNode(node)} for ${nameOf(place)}, ${expected}`,
    at: node.at,
    ...helpOf(
      fix?.help ?? flag ?? (example === undefined ? undefined : `Write it as in \`${asWritten(place, example)}\`.`),
    ),
    ...(fix ? { fixes: [fix.fix] } : {}),
  });
}

function wantsText(schema: FaultySchema): boolean {
  return schema.type === 'string' || (Array.isArray(schema.type) && schema.type.includes('string'));
}

function fixOfType(node: YamlNode, schema: FaultySchema): { help: string; fix: Fix } | undefined {
  if (node.kind !== 'scalar') return undefined;
  if (node.core !== null && typeof node.core !== 'string' && wantsText(schema)) {
    const quoted = quoteText(node.text.value);
    return { help: `Put it in quotes: \`${quoted}\`.`, fix: replaceBy(node.at, quoted, 'Put it in quotes', true) };
  }
  const bare = node.text.value.trim();
  const isNumber = schema.type === 'integer' && /^\d+$/.test(bare);
  const isFlag = schema.type === 'boolean' && /^(?:true|false)$/.test(bare);
  if (node.style === 'quoted' && (isNumber || isFlag)) {
    return { help: `Take the quotes away: \`${bare}\`.`, fix: replaceBy(node.at, bare, 'Take the quotes away', true) };
  }
  const flag = flags[bare.toLowerCase()];
  const takes = schema.type === 'boolean' || (flag === 'true' && isFlagOrWords({ schema }));
  if (takes && flag) {
    return { help: `Write \`${flag}\`.`, fix: replaceBy(node.at, flag, `Write \`${flag}\``, true) };
  }
  return undefined;
}

const flags: Readonly<Record<string, string>> = { yes: 'true', on: 'true', true: 'true', no: 'false', off: 'false' };

/** Whether `true` may stand in the place of words, and nothing else that is no text. */
export function isFlagOrWords({
  schema,
  keyword,
}: {
  readonly schema: FaultySchema;
  readonly keyword?: string;
}): boolean {
  return keyword === 'const' || ['string', 'boolean'].every((type) => [schema.type ?? []].flat().includes(type));
}

function helpOfFlag({ place, schema }: Fault): string {
  const [example] = schema.examples ?? [];
  const words = example === undefined ? 'words' : `\`${asWritten(place, example)}\``;
  return `Take ${nameOf(place)} out where there is none; else write ${words}.`;
}

/** One thing where a list of them is expected. */
function listOfOne({ place: { node }, schema }: Fault, file: SourceFile): { help: string; fix: Fix } | undefined {
  const types = [schema.type ?? []].flat();
  const wantsThis = node.kind === 'scalar' ? typeof node.core === 'string' : schema.items?.type === 'object';
  const written = file.text.slice(node.at.start, node.at.end);
  if (!types.includes('array') || node.kind === 'list' || !wantsThis || written.includes('\n')) return undefined;
  if (node.kind === 'map' && !written.startsWith('{')) return undefined;
  return { help: `Make it a list: \`[${written}]\`.`, fix: replaceBy(node.at, `[${written}]`, 'Make it a list') };
}

function blankValue(fault: Fault, context: FaultContext): Diagnostic {
  const { place } = fault;
  const at = place.key?.at ?? place.node.at;
  if (mustSayNone(place, context.kind)) return unsaidNone(place, at, context);
  const [example] = fault.schema.examples ?? [];
  return diagnose({
    code: 'blank-value',
    severity: 'error',
    message: `Nothing stands behind ${nameOf(place)}, ${expectationOf(fault.schema)}`,
    at,
    help:
      example === undefined
        ? 'Fill it in, or take it out.'
        : `Fill it in, as in \`${asWritten(place, example)}\`, or take it out.`,
  });
}

function unsaidNone(place: Place, at: Span, context: FaultContext): Diagnostic {
  const key = place.path[0] ?? '';
  const edit = noneEdit(place, context.file);
  const what = key === 'leaves' ? 'a map of states' : 'a list';
  return diagnose({
    code: 'unsaid-none',
    severity: 'error',
    message: `\`${key}\` is left blank, expected ${what}, or \`none\` where there is nothing to say`,
    at,
    help: `Write \`${key}: none\` if that is so.`,
    note: 'Silence is never read as none: nobody could tell a forgotten list from an empty one.',
    ...(edit ? { fixes: [{ title: 'Write `none`', edits: [edit], safe: false }] } : {}),
  });
}

function noneEdit(place: Place, file: SourceFile): Edit | undefined {
  if (place.node.kind !== 'scalar') return { at: place.node.at, text: 'none' };
  if (!place.key) return undefined;
  const colon = file.text.indexOf(':', place.key.at.end);
  return colon < 0 ? undefined : { at: { file: file.path, start: colon + 1, end: colon + 1 }, text: ' none' };
}

/** An empty text, list or map. */
export function emptyValue(fault: Fault, context: FaultContext): Diagnostic {
  const { place } = fault;
  if (mustSayNone(place, context.kind) && place.node.kind !== 'scalar') {
    return unsaidNone(place, place.node.at, context);
  }
  return diagnose({
    code: 'blank-value',
    severity: 'error',
    message: `Unexpected ${describeNode(place.node)} for ${nameOf(place)}, ${expectationOf(fault.schema)}`,
    at: place.node.at,
    help: 'Fill it in, or take it out.',
  });
}

/** A word that is none of those to choose from. */
export function unknownWord(fault: Fault): Diagnostic {
  const { place } = fault;
  const word = textOf(place.node);
  const words = (fault.schema.enum ?? fault.params.allowedValues ?? []).map(String);
  const [near] = nearestNames(word, words);
  return diagnose({
    code: 'unknown-word',
    severity: 'error',
    message: `Unexpected word \`${shorten(word)}\` for ${nameOf(place)}, expected ${oneOf(sortedByNearness(word, words))}`,
    at: place.node.at,
    ...helpOf(near === undefined ? 'Write one of these words.' : askWhetherMeant([near])),
    ...(near === undefined ? {} : { fixes: [replaceBy(place.node.at, quoteIfOddWord(near), `Write \`${near}\``)] }),
  });
}

/** A text or number that is not written as it should be. */
export function wrongForm(fault: Fault): Diagnostic {
  const { place, schema } = fault;
  const [example] = schema.examples ?? [];
  return diagnose({
    code: 'wrong-form',
    severity: 'error',
    message: `Unexpected \`${shorten(textOf(place.node))}\` for ${nameOf(place)}, ${schema.patternErrorMessage ?? expectationOf(schema)}`,
    at: place.node.at,
    ...helpOf(example === undefined ? undefined : `Write it as in \`${asWritten(place, example)}\`.`),
  });
}

/** Two equal entries of a list. */
export function duplicateEntry(fault: Fault): Diagnostic {
  const { node } = fault.place;
  const [first, second] = [fault.params.j ?? 0, fault.params.i ?? 0].sort((a, b) => a - b);
  const items = node.kind === 'list' ? node.items : [];
  const [before, again] = [items[first ?? 0] ?? node, items[second ?? 0] ?? node];
  return diagnose({
    code: 'duplicate-entry',
    severity: 'error',
    message: `\`${shorten(textOf(again))}\` stands twice in ${nameOf(fault.place)}`,
    at: again.at,
    related: [{ message: 'It stands here first', at: before.at }],
    help: 'Take one of the two out, or mend it.',
  });
}
