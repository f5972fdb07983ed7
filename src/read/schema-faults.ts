// The words for each way in which a file can differ from its schema: what stands there, what was expected, how to mend it.

import { type Diagnostic, diagnose, type Edit, type Fix } from '../diagnostic/diagnostic.js';
import { askWhetherMeant, nearestNames } from '../diagnostic/nearest.js';
import type { SourceFile, Span } from '../text/source.js';
import { quoteText } from './mended.js';
import { type Wording, wordingAt } from './schema-lookup.js';
import { entryWith, nameOf, type Place } from './schema-places.js';
import type { FileKind } from './schemas.js';
import type { YamlNode } from './tree.js';

/** One difference, as the validator found it. */
export interface Fault {
  readonly place: Place;
  readonly keyword: string;
  readonly params: FaultParts;
  readonly schema: FaultySchema;
  /** Where a key is at fault and not a value. */
  readonly propertyName?: string;
  /** A key that is missing in the same map: an unknown one may stand for it. */
  readonly standsFor?: string;
}

/** What the validator says of the fault, by keyword. */
export interface FaultParts {
  readonly additionalProperty?: string;
  readonly missingProperty?: string;
  /** The key that makes another one necessary. */
  readonly property?: string;
  readonly allowedValues?: readonly unknown[];
  /** The two entries of a list that are equal. */
  readonly i?: number;
  readonly j?: number;
}

interface FaultySchema extends Wording {
  readonly properties?: Readonly<Record<string, unknown>>;
  readonly enum?: readonly string[];
  readonly type?: string | readonly string[];
  readonly items?: { readonly type?: unknown };
}

/** By kind of file, each key with the titles of the maps that have it. */
export type KnownKeys = ReadonlyMap<FileKind, ReadonlyMap<string, readonly string[]>>;

export interface FaultContext {
  readonly file: SourceFile;
  readonly kind: FileKind;
  readonly known: (kind: FileKind) => ReadonlyMap<string, readonly string[]>;
}

/** The diagnostic for one difference. */
export function describeFault(found: Fault, context: FaultContext): Diagnostic {
  // the property itself knows better examples than what it refers to
  const fault = { ...found, schema: { ...found.schema, ...wordingAt(context.kind, found.place.path) } };
  switch (fault.keyword) {
    case 'additionalProperties':
      return unknownKey(fault, context);
    case 'required':
    case 'dependentRequired':
      return missingKey(fault, context);
    case 'type':
    case 'const':
      return wrongType(fault, context);
    case 'minLength':
    case 'minItems':
    case 'minProperties':
      return emptyValue(fault, context);
    case 'enum':
      return unknownWord(fault);
    case 'pattern':
      return fault.propertyName === undefined ? wrongForm(fault) : wrongKey(fault);
    case 'minimum':
      return wrongForm(fault);
    case 'uniqueItems':
      return duplicateEntry(fault);
    case 'maxProperties':
      return tooManyKeys(fault);
  }
  throw new Error(`No words for the schema keyword ${fault.keyword}`);
}

function unknownKey(fault: Fault, context: FaultContext): Diagnostic {
  const name = fault.params.additionalProperty ?? '';
  const at = keySpan(fault.place.node, name);
  const written = fault.place.node.kind === 'map' ? fault.place.node.entries.map(({ key }) => key.text.value) : [];
  const here = Object.keys(fault.schema.properties ?? {});
  const free = here.filter((key) => !written.includes(key));
  const [near] = nearestNames(name, fault.standsFor === undefined ? free : [fault.standsFor, ...free]);
  if (context.kind === 'translation' && near === undefined && context.known('procedure').has(name)) {
    return typedTranslation(name, at);
  }
  const inside = fault.place.path.length === 0 ? kindNames[context.kind] : nameOf(fault.place);
  const expected = near ?? fault.standsFor;
  return diagnose({
    code: 'unknown-key',
    severity: 'error',
    message: `Unexpected key \`${name}\` in ${inside}, expected ${oneOf(expected === undefined ? here : [expected])}`,
    at,
    ...helpOf(near === undefined ? helpWithKey(name, fault, context) : askWhetherMeant([near])),
    ...(near === undefined ? {} : { fixes: [replaceBy(at, near, `Write \`${near}\``)] }),
  });
}

function helpWithKey(name: string, { standsFor, schema }: Fault, context: FaultContext): string {
  if (standsFor !== undefined)
    return `\`${standsFor}\` is missing here: write it in place of \`${name}\` if that is meant.`;
  const elsewhere = (context.known(context.kind).get(name) ?? []).filter((title) => title !== schema.title);
  const titles = elsewhere.map((title) => title.toLowerCase()).join(', ');
  return titles === ''
    ? 'Write one of these keys, or take it out.'
    : `\`${name}\` is a key of: ${titles}. Move it there, or take it out.`;
}

const kindNames: Readonly<Record<FileKind, string>> = {
  book: 'the book',
  machine: 'a machine',
  header: 'a header',
  instruments: 'the instruments',
  tools: 'the tools',
  crops: 'the crops',
  states: 'the states',
  safety: 'the safety rules',
  terms: 'the terms',
  fleet: 'the fleet',
  procedure: 'a procedure',
  translation: 'a translation',
};

function typedTranslation(name: string, at: Span): Diagnostic {
  return diagnose({
    code: 'typed-translation',
    severity: 'error',
    message: `Unexpected key \`${name}\` in a translation, expected texts alone`,
    at,
    help: `Take \`${name}\` out: it stands in the original, once for all languages.`,
    note: 'Numbers, states and branches that stand twice come to differ, and one of the two is then wrong.',
  });
}

function missingKey(fault: Fault, context: FaultContext): Diagnostic {
  const name = fault.params.missingProperty ?? '';
  const { place } = fault;
  const [example] = wordingAt(context.kind, [...place.path, name]).examples ?? [];
  const inside = place.path.length === 0 ? kindNames[context.kind] : nameOf(place);
  const because = fault.params.property === undefined ? '' : ` that has \`${fault.params.property}\``;
  return diagnose({
    code: 'missing-key',
    severity: 'error',
    message: `\`${name}\` is missing in ${inside}${because}`,
    at: because ? keySpan(place.node, fault.params.property ?? '') : startOf(place),
    help: example === undefined ? `Add \`${name}:\`.` : `Add a line such as \`${name}: ${writeFlow(example)}\`.`,
  });
}

/** Where something is missing: at the first key of the map, which names it better than the whole map would. */
function startOf(place: Place): Span {
  const { node } = place;
  const first = node.kind === 'map' ? node.entries[0]?.key.at : undefined;
  return first ?? place.key?.at ?? node.at;
}

// keys in which an empty list must be said, by kind of file
const saidNone: Readonly<Partial<Record<FileKind, readonly string[]>>> = {
  procedure: ['tools', 'supplies', 'hazards', 'requires', 'leaves'],
};

function mustSayNone(place: Place, kind: FileKind): boolean {
  const [key = '', ...rest] = place.path;
  return rest.length === 0 && (saidNone[kind] ?? []).includes(key);
}

function wrongType(fault: Fault, context: FaultContext): Diagnostic {
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
  return diagnose({
    code: 'wrong-type',
    severity: 'error',
    message: `Unexpected ${describeNode(node)} for ${nameOf(place)}, ${expected}`,
    at: node.at,
    ...helpOf(fix?.help ?? (example === undefined ? undefined : `Write it as in \`${asWritten(place, example)}\`.`)),
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
  const flag = ({ yes: 'true', on: 'true', no: 'false', off: 'false' } as Record<string, string>)[bare.toLowerCase()];
  if (schema.type === 'boolean' && flag) {
    return { help: `Write \`${flag}\`.`, fix: replaceBy(node.at, flag, `Write \`${flag}\``, true) };
  }
  return undefined;
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

function emptyValue(fault: Fault, context: FaultContext): Diagnostic {
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

function unknownWord(fault: Fault): Diagnostic {
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

function wrongForm(fault: Fault): Diagnostic {
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

function wrongKey(fault: Fault): Diagnostic {
  const name = fault.propertyName ?? '';
  return diagnose({
    code: 'bad-name',
    severity: 'error',
    message: `Unexpected name \`${name}\` in ${nameOf(fault.place)}, expected small letters, digits and \`_\`, a letter first`,
    at: keySpan(fault.place.node, name),
    help: 'Change the name, here and where it is used.',
  });
}

function duplicateEntry(fault: Fault): Diagnostic {
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

function tooManyKeys(fault: Fault): Diagnostic {
  const { node } = fault.place;
  const second = node.kind === 'map' ? node.entries[1] : undefined;
  return diagnose({
    code: 'unknown-key',
    severity: 'error',
    message: `Unexpected second key in ${nameOf(fault.place)}, ${expectationOf(fault.schema)}`,
    at: second?.key.at ?? node.at,
    help: 'Keep one of them.',
  });
}

function expectationOf(schema: FaultySchema): string {
  return schema.errorMessage ?? `expected ${[schema.type ?? 'another value'].flat().join(' or ')}`;
}

/** The example as it would stand in the file, behind its key. */
function asWritten(place: Place, example: unknown): string {
  return place.key ? `${place.key.text.value}: ${writeFlow(example)}` : writeFlow(example);
}

/** A value as YAML on one line. */
export function writeFlow(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(writeFlow).join(', ')}]`;
  if (typeof value === 'object' && value !== null) {
    const parts = Object.entries(value).map(([key, part]) => `${quoteIfOddWord(key)}: ${writeFlow(part)}`);
    return `{ ${parts.join(', ')} }`;
  }
  return typeof value === 'string' ? quoteIfOdd(value) : String(value);
}

function quoteIfOdd(text: string): string {
  return /^[\p{L}\d±-](?:[^,:#[\]{}"]|:(?! ))*$/u.test(text) &&
    !/^(?:on|off|yes|no|true|false|null|[\d.]+)$/i.test(text)
    ? text
    : quoteText(text);
}

function quoteIfOddWord(word: string): string {
  return /^(?:on|off|yes|no)$/.test(word) ? `"${word}"` : word;
}

function describeNode(node: YamlNode): string {
  if (node.kind === 'list') return node.items.length === 0 ? 'empty list' : 'list';
  if (node.kind === 'map') return node.entries.length === 0 ? 'empty map' : 'map';
  const { value } = node.text;
  if (typeof node.core === 'number') return `number \`${value}\``;
  if (typeof node.core === 'string') return value === '' ? 'empty text' : `text \`${shorten(value)}\``;
  return `\`${shorten(value)}\``;
}

function textOf(node: YamlNode): string {
  return node.kind === 'scalar' ? node.text.value : describeNode(node);
}

function shorten(text: string): string {
  const flat = text.replace(/\s+/g, ' ');
  return flat.length > 60 ? `${flat.slice(0, 56)} …` : flat;
}

function keySpan(node: YamlNode, key: string): Span {
  const entry = node.kind === 'map' ? entryWith(node, key) : undefined;
  return entry?.key.at ?? node.at;
}

function sortedByNearness(word: string, names: readonly string[]): readonly string[] {
  const near = nearestNames(word, names);
  return [...near, ...names.filter((name) => !near.includes(name))];
}

function oneOf(names: readonly string[]): string {
  const quoted = names.map((name) => `\`${name}\``);
  if (quoted.length <= 1) return quoted[0] ?? 'no key';
  if (quoted.length > 12) return `one of ${quoted.slice(0, 12).join(', ')}, …`;
  return `${quoted.slice(0, -1).join(', ')} or ${quoted.at(-1)}`;
}

function replaceBy(at: Span, text: string, title: string, safe = false): Fix {
  return { title, edits: [{ at, text }], safe };
}

function helpOf(help: string | undefined | false): { help?: string } {
  return help ? { help } : {};
}
