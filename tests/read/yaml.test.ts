import { expect, test } from 'vitest';
import { readYaml, splitFrontMatter } from '../../src/read/yaml.js';
import { spanWithin } from '../../src/text/source.js';

test('places count from the start of the file, through the front matter', () => {
  const file = { path: 'a.md', text: '---\r\ntitle: Say "it"\r\nlimit: 3.60 V\r\n---\r\nBody\r\n' };
  const cut = splitFrontMatter(file);
  expect(cut.diagnostics).toEqual([]);
  expect(file.text.slice(cut.value!.body.start)).toBe('Body\r\n');
  const read = readYaml(file, cut.value!.front);
  expect(read.diagnostics).toEqual([]);
  const map = read.value!;
  if (map.kind !== 'map') throw new Error('no map');
  const value = map.entries[1]!.value;
  if (value.kind !== 'scalar') throw new Error('no scalar');
  expect(value.text.value).toBe('3.60 V');
  const at = spanWithin(value.text, 0, 4);
  expect(file.text.slice(at.start, at.end)).toBe('3.60');
});
