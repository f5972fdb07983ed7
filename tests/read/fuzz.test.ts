// Whatever is in a file: reading never throws, every place lies inside the file, and what is written as text comes back.

import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseDocument, stringify } from 'yaml';
import type { Diagnostic } from '../../src/diagnostic/diagnostic.js';
import { splitFrontMatter } from '../../src/read/front-matter.js';
import { readProse } from '../../src/read/markdown.js';
import type { YamlNode, YamlScalar } from '../../src/read/tree.js';
import { readYaml } from '../../src/read/yaml.js';
import { decodeText } from '../../src/text/decode.js';
import { type Span, spanWithin } from '../../src/text/source.js';
import { mend, read } from './reading.js';

/** Pieces that YAML, the traps and markdown care about, so that chance meets them often. */
const piece = fc.constantFrom(
  ...['do', 'id', 'x', 'Turn it', 'then', ': ', ':', ' #', '  # ', '#4', ', ', ',', '{', '}', '[', ']', '{hold}', '{{'],
  ...['"', "'", '\\', '- ', '-', '|', '>', '%', '@', '`', '&a', '*a', '!', '? ', '\n', '\r\n', '\r', '\n  ', '\n    '],
  ...[
    '\t',
    '\u00a0',
    '\ufeff',
    '3.10',
    '007',
    '3,6 V',
    'serial',
    'software',
    '---',
    '\n---\n',
    '...',
    '%YAML 1.1',
    '<<',
  ],
  ...['<b>', '](', '![', '# ', '\n\n', '```', '~', '\u0000', '😀', 'é', '|-', '>+2'],
);
const text = fc.oneof(
  fc.array(piece, { maxLength: 24 }).map((pieces) => pieces.join('')),
  fc.string({ unit: 'binary', maxLength: 60 }),
);

function spansOf(diagnostics: readonly Diagnostic[]): readonly Span[] {
  return diagnostics.flatMap(({ at, related, fixes }) => [
    at,
    ...related.map((place) => place.at),
    ...(fixes ?? []).flatMap((fix) => fix.edits.map((edit) => edit.at)),
  ]);
}

function scalarsOf(node: YamlNode | undefined): readonly YamlScalar[] {
  if (node === undefined) return [];
  if (node.kind === 'scalar') return [node];
  if (node.kind === 'list') return node.items.flatMap(scalarsOf);
  return node.entries.flatMap(({ key, value }) => [key, ...scalarsOf(value)]);
}

function nodesOf(node: YamlNode | undefined): readonly YamlNode[] {
  if (node === undefined || node.kind === 'scalar') return node ? [node] : [];
  return [node, ...(node.kind === 'list' ? node.items : node.entries.map(({ value }) => value)).flatMap(nodesOf)];
}

/** Whether the library reads what it wrote as it was. */
function readsBack(source: string, value: unknown): boolean {
  const document = parseDocument(source);
  return document.errors.length === 0 && isDeepStrictEqual(document.toJS(), value);
}

function expectInside(spans: readonly Span[], length: number): void {
  for (const { start, end } of spans) {
    expect(start).toBeGreaterThanOrEqual(0);
    expect(end).toBeGreaterThanOrEqual(start);
    expect(end).toBeLessThanOrEqual(length);
  }
}

describe('any text', () => {
  it('is read as YAML without a throw, all places inside the file', () => {
    fc.assert(
      fc.property(text, (source) => {
        const { value, diagnostics } = readYaml({ path: 'a.yaml', text: source });
        expectInside(spansOf(diagnostics), source.length);
        expectInside(
          nodesOf(value).map(({ at }) => at),
          source.length,
        );
        for (const scalar of scalarsOf(value)) {
          expectInside(
            [scalar.at, scalar.text.at, spanWithin(scalar.text, 0, scalar.text.value.length)],
            source.length,
          );
          if (scalar.text.offsets) expect(scalar.text.offsets.length).toBe(scalar.text.value.length + 1);
        }
      }),
      { numRuns: 2000 },
    );
  });

  it('is cut and read as a procedure without a throw, all places inside the file', () => {
    fc.assert(
      fc.property(text, text, (front, body) => {
        const file = { path: 'a.md', text: `---\n${front}\n---\n${body}` };
        const cut = splitFrontMatter(file);
        if (!cut.value) throw new Error('A file with both lines was not cut');
        const yaml = readYaml(file, cut.value.front);
        const prose = readProse(file, cut.value.body, new Set(['x']));
        expectInside(spansOf([...yaml.diagnostics, ...prose.diagnostics]), file.text.length);
        expectInside(
          nodesOf(yaml.value).map(({ at }) => at),
          cut.value.front.end,
        );
        for (const { at, body: words, heading } of prose.value) {
          expectInside([at, words.source.at, ...(heading ? [heading.at] : [])], file.text.length);
          expect(file.text.slice(words.source.at.start, words.source.at.end)).toBe(words.source.value);
        }
      }),
      { numRuns: 1000 },
    );
  });

  it('from any bytes is text, or has a place where it is none', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 40 }), (bytes) => {
        const decoded = decodeText(bytes);
        if (decoded.kind === 'text') {
          const skipped = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
          expect(Buffer.from(decoded.text, 'utf8').equals(Buffer.from(bytes.subarray(skipped)))).toBe(true);
        } else if (decoded.kind === 'not-utf-8') {
          const before = Buffer.from(bytes.subarray(0, decoded.byte));
          expect(new TextDecoder('utf-8', { fatal: true }).decode(before)).toBeDefined();
          const upTo = bytes.subarray(0, decoded.byte + 4);
          expect(() => new TextDecoder('utf-8', { fatal: true }).decode(upTo)).toThrow();
        }
      }),
      { numRuns: 1500 },
    );
  });
});

describe('the quoted text of a trap', () => {
  it('mends the file: after all first fixes none of these traps is left', () => {
    const traps = /-in-text$|^sign-before|^text-cut|^text-read|^decimal-comma/;
    const sentence = fc
      .array(
        fc.constantFrom(
          'Turn',
          'it',
          'bolt',
          '#4',
          '{hold}',
          'then:',
          'off,',
          '"OK"',
          '*now*',
          '%',
          '> 3 V',
          '[C]',
          "don't",
        ),
        {
          minLength: 1,
          maxLength: 6,
        },
      )
      .map((words) => words.join(' '));
    fc.assert(
      fc.property(
        sentence,
        fc.constantFrom('do: %s\nid: x\n', '- %s\n- x\n', '- { do: %s, id: x }\n', 'a: [%s]\n'),
        (words, frame) => {
          const source = frame.replace('%s', () => words);
          const first = read(source);
          const after = read(mend(source, first.diagnostics));
          expect(after.faults.filter((fault) => traps.test(fault.split(' ')[0] ?? ''))).toEqual([]);
          if (frame.startsWith('do') && !/: |:$|^"[^"]*"$|^\[C\]$/.test(words))
            expect(after.value).toEqual({ do: words, id: 'x' });
          if (first.diagnostics.every(({ fixes }) => fixes?.[0]?.safe)) expect(after.value).toEqual(first.value);
        },
      ),
      { numRuns: 1500 },
    );
  });
});

describe('YAML that is written by the library', () => {
  const key = fc
    .stringMatching(/^[a-z]{1,6}$/)
    .filter((name) => !['serial', 'serials', 'phone', 'null', 'true', 'false'].includes(name));
  const words = fc.array(piece, { maxLength: 6 }).map((pieces) => pieces.join('').replace(/\p{Cc}|\ufeff/gu, ' '));
  const value = fc.letrec((tie) => ({
    node: fc.oneof({ depthSize: 'small' }, words, fc.integer(), fc.boolean(), tie('map'), tie('list')),
    map: fc.dictionary(key, tie('node'), { maxKeys: 4, noNullPrototype: true }),
    list: fc.array(tie('node'), { maxLength: 4 }),
  }));

  it('has no trap, and comes back as it was', () => {
    fc.assert(
      fc.property(value.map, fc.constantFrom(20, 80, 0), fc.boolean(), (map, lineWidth, isFlow) => {
        const source = stringify(map, {
          lineWidth,
          ...(isFlow ? { collectionStyle: 'flow' } : {}),
          defaultStringType: 'QUOTE_DOUBLE',
        });
        // The library's writer slips on some long quoted texts: these it does not read back itself.
        fc.pre(readsBack(source, map));
        const found = read(source);
        expect(found.faults).toEqual([]);
        expect(found.value).toEqual(Object.keys(map as object).length === 0 ? {} : map);
      }),
      { numRuns: 1500 },
    );
  });

  it('knows the place of every letter of a text, however it is quoted and folded', () => {
    const styles = ['QUOTE_DOUBLE', 'QUOTE_SINGLE', 'BLOCK_FOLDED', 'BLOCK_LITERAL', 'PLAIN'] as const;
    const long = fc.array(fc.oneof(fc.stringMatching(/^[a-z"'\\é😀]{1,9}$/u), fc.constant('\n')), {
      minLength: 1,
      maxLength: 14,
    });
    fc.assert(
      fc.property(long, fc.constantFrom(...styles), (parts, style) => {
        const words = parts.join(' ').trim();
        const source = stringify({ a: words }, { lineWidth: 22, defaultStringType: style });
        fc.pre(readsBack(source, { a: words }));
        const { value, diagnostics } = readYaml({ path: 'a.yaml', text: source });
        expect(diagnostics).toEqual([]);
        const scalar = scalarsOf(value)[1];
        if (!scalar) throw new Error('The text is gone');
        expect(scalar.text.value).toBe(words);
        for (let i = 0; i < words.length; i++) {
          if (/[\s"'\\]/.test(words[i] ?? '') || (words.charCodeAt(i) & 0xfc00) === 0xdc00) continue;
          const size = (words.charCodeAt(i) & 0xfc00) === 0xd800 ? 2 : 1;
          const at = spanWithin(scalar.text, i, i + size);
          // A line break that is escaped away belongs to the letter before it.
          const written = source.slice(at.start, at.end).replace(/\\\n *$/, '');
          expect(written.startsWith('\\') ? JSON.parse(`"${written}"`) : written).toBe(words.slice(i, i + size));
        }
      }),
      { numRuns: 1000 },
    );
  });
});
