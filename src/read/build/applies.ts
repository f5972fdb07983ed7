// Which rigs something is for: `applies` of procedures, `only` of their parts.

import type { Applies, AppliesTest } from '../../model/procedure.js';
import { type Located, type SourceText, type Span, spanWithin } from '../../text/source.js';
import { entryWith } from '../schema-places.js';
import type { YamlEntry, YamlNode, YamlScalar } from '../tree.js';
import { childOf, idsOf, itemsOf, located, type Part, partOf } from './part.js';
import { filled, type Reading } from './reading.js';

/** What stands behind `applies` or `only`. */
export function appliesBehind(reading: Reading, part: Part | undefined, key: string): Applies | undefined {
  const child = childOf(reading, part, key);
  return child && appliesOf(child.node);
}

function appliesOf(node: YamlNode): Applies | undefined {
  if (node.kind === 'scalar') return node.text.value === 'all' ? { kind: 'all', at: node.at } : undefined;
  if (node.kind === 'list') return undefined;
  return { kind: 'keys', tests: node.entries.flatMap(testsOf), at: node.at };
}

function testsOf(entry: YamlEntry): readonly AppliesTest[] {
  const { key, value } = entry;
  const { at } = value;
  switch (key.text.value) {
    case 'machine':
    case 'option':
      return [{ key: key.text.value, ids: idsOf(itemsOf(partOf(value))), at }];
    case 'header':
      return [headerTest(value)];
    case 'serials':
      return anyOf(itemsOf(partOf(value)).flatMap(serialTest), at);
    case 'software':
      return value.kind === 'map'
        ? value.entries.flatMap((inner) => softwareTests(inner.value, located(inner.key)))
        : softwareTests(value);
    case 'not': {
      const of = appliesOf(value);
      return of ? [{ key: 'not', of, at }] : [];
    }
    default:
      return [];
  }
}

function headerTest(value: YamlNode): AppliesTest {
  const type = value.kind === 'map' ? entryWith(value, 'type')?.value : undefined;
  return type
    ? { key: 'header-type', ids: idsOf(itemsOf(partOf(type))), at: value.at }
    : { key: 'header', ids: idsOf(itemsOf(partOf(value))), at: value.at };
}

/** `A to B`, `from A`, `to B`: the ends with their places. Missing where the text is none of these. */
export function serialEnds(text: SourceText): { from?: Located<string>; to?: Located<string> } | undefined {
  const found = /^(?:from +(?<start>\S+)|to +(?<end>\S+)|(?<low>\S+) +to +(?<high>\S+))$/d.exec(text.value.trim());
  const indent = text.value.length - text.value.trimStart().length;
  const groups = found?.indices?.groups;
  if (!groups) return undefined;
  const end = (...names: readonly string[]): Located<string> | undefined => {
    const [range] = names.flatMap((name) => (groups[name] ? [groups[name]] : []));
    if (!range) return undefined;
    const [start, stop] = [range[0] + indent, range[1] + indent];
    return { value: text.value.slice(start, stop), at: spanWithin(text, start, stop) };
  };
  return filled({ from: end('start', 'low'), to: end('end', 'high') });
}

function serialTest(node: YamlNode): readonly AppliesTest[] {
  const ends = node.kind === 'scalar' ? serialEnds(node.text) : undefined;
  return ends ? [{ key: 'serials', ...ends, at: node.at }] : [];
}

function softwareTests(value: YamlNode, module?: Located<string>): readonly AppliesTest[] {
  const scalars = itemsOf(partOf(value)).filter((node): node is YamlScalar => node.kind === 'scalar');
  const least = scalars.flatMap((node) => {
    // Quotes inside plain text are letters to YAML; here they only mark that the version is text.
    const found = /^\s*at least\s+(?<quote>["']?)(?<version>\S.*?)\k<quote>\s*$/d.exec(node.text.value);
    const range = found?.indices?.groups?.version;
    if (!range) return [];
    const atLeast = { value: node.text.value.slice(...range), at: spanWithin(node.text, ...range) };
    return [filled({ key: 'software' as const, module, atLeast, versions: [], at: node.at })];
  });
  const versions = idsOf(scalars.filter((node) => !/^\s*at least\s/.test(node.text.value)));
  const exact = versions.length > 0 ? [filled({ key: 'software' as const, module, versions, at: value.at })] : [];
  return anyOf([...least, ...exact], value.at);
}

// all tests of a map must hold, so that "any of these" is "not: none of these holds"
function anyOf(tests: readonly AppliesTest[], at: Span): readonly AppliesTest[] {
  if (tests.length <= 1) return tests;
  const none: Applies = {
    kind: 'keys',
    tests: tests.map((test) => ({ key: 'not', of: { kind: 'keys', tests: [test], at: test.at }, at: test.at })),
    at,
  };
  return [{ key: 'not', of: none, at }];
}
