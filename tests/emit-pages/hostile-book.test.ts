// A book whose every text is hostile: whatever its author wrote, no page of the site does anything with it but show it.

import { describe, expect, it } from 'vitest';
import { emitSite } from '../../src/emit/pages/site.js';
import { bookOf, filesOfBook } from './books.js';

// the kinds of injection are those of the OWASP Cross Site Scripting Prevention Cheat Sheet
const payloads = [
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  "' onmouseover='alert(1)",
  '" onfocus="alert(1)" autofocus x="',
  '</title><script>alert(1)</script>',
  '--><script>alert(1)</script><!--',
  '</textarea></style></script><svg onload=alert(1)>',
  '[press](javascript:alert(1))',
  '![x](https://elsewhere.example/pixel.png)',
  '<a href=javascript:alert(1)>x</a>',
  '&lt;script&gt;alert(1)&lt;/script&gt;',
  '<iframe srcdoc="<script>alert(1)</script>">',
  '<meta http-equiv=refresh content=0;url=https://elsewhere.example>',
  '<base href=https://elsewhere.example/>',
  '<form action=https://elsewhere.example><button>x',
  '<math><mi xlink:href="data:x,<script>alert(1)</script>">',
  '\u2028</script>\u0000<script>alert(1)',
];

const keys =
  'title|summary|name|do|expect|note|label|tell|what|harm|avoid|owner|if-missed|shown-by|because|customer|use';
const line = new RegExp(`^(\\s*(?:- )?(?:${keys}): )([^"'{[|>\\s].*?)(\\s{2,}#.*)?$`, 'gm');
const inner = new RegExp(`([{,] (?:${keys}): )([^"'{[|>\\s,}][^,}]*)(?=[,}]| })`, 'g');

/** The base book with a payload behind every text, and a fleet, words and prose that have it too. */
function hostileTexts(payload: string): ReadonlyMap<string, string> {
  const texts = new Map(filesOfBook('tests/books/base').texts);
  const poison = (text: string): string => JSON.stringify(`${text.trim()} ${payload}`);
  for (const [path, text] of texts) {
    const [, front = text, prose = ''] = path.endsWith('.md')
      ? (/^(---\n[\s\S]*?\n---\n)([\s\S]*)$/.exec(text) ?? [])
      : [];
    const changed = front
      .replaceAll(line, (_, head: string, value: string) => head + poison(value))
      .replaceAll(inner, (_, head: string, value: string) => head + poison(value));
    texts.set(
      path,
      changed + (prose === '' ? '' : `${prose}\n## ${payload.replaceAll(/[\p{Cc}\u2028]/gu, '')}\n\n${payload}\n`),
    );
  }
  const quoted = JSON.stringify(payload);
  texts.set('terms.yaml', `terms:\n  - { use: ${quoted}, also: [${quoted}] }\n`);
  texts.set('fleet.yaml', `units:\n  - { id: ${quoted}, machine: tarn-40, serial: 70-00317 }\n`);
  return texts;
}

// how pages are written: attributes between double quotes, nothing else that begins with `<`
const tag = /<([a-z][a-z0-9-]*)((?:\s+[a-z][a-z0-9:-]*(?:="[^"]*")?)*)\s*\/?>/gi;
const attribute = /\s([a-z][a-z0-9:-]*)(?:="([^"]*)")?/gi;

/** What a page would do that it must not; nothing for one that only shows. */
function actsOf(page: string): readonly string[] {
  const acts: string[] = [];
  const rest = page
    .replace('<!DOCTYPE html>', '')
    .replaceAll(/<\/[a-z][a-z0-9-]*>/gi, '')
    .replaceAll(tag, '');
  if (rest.includes('<')) acts.push(`a sign that begins an element: ${rest.slice(rest.indexOf('<')).slice(0, 60)}`);
  for (const [whole, name = '', attributes = ''] of page.matchAll(tag)) {
    if (/^(?:iframe|object|embed|base|math|textarea|style|applet)$/i.test(name)) acts.push(whole);
    const own = new Map(
      [...attributes.matchAll(attribute)].map(([, key = '', value = '']) => [key.toLowerCase(), value]),
    );
    if ([...own.keys()].some((key) => /^(?:on|style$|srcdoc$|autofocus$)/.test(key))) acts.push(whole);
    if (name === 'script' && !/^[./\w-]*assets\/[\w-]+\.js$/.test(own.get('src') ?? '')) acts.push(whole);
    if (own.has('http-equiv') && own.get('http-equiv') !== 'Content-Security-Policy') acts.push(whole);
    for (const key of ['href', 'src', 'action']) {
      const value = own.get(key) ?? '';
      if (/^\s*(?:javascript|data|vbscript):/i.test(value)) acts.push(whole);
      if (value.includes('elsewhere.example') && name !== 'a') acts.push(whole);
    }
  }
  return acts;
}

describe('a hostile book', () => {
  const known = ['raw-html', 'missing-figure', 'unsafe-link', 'unknown-figure', 'picture-outside-figures'];

  for (const payload of payloads) {
    it(`does not act: ${JSON.stringify(payload)}`, () => {
      const { resolved } = bookOf(hostileTexts(payload), { proved: false, pass: known });
      const files = emitSite(resolved);
      let pages = 0;
      let shown = 0;
      for (const [path, text] of files) {
        if (typeof text !== 'string' || !path.endsWith('.html')) continue;
        pages += 1;
        // an escaped payload shows that it got there at all
        if (/alert\(1\)|elsewhere/.test(text)) shown += 1;
        expect([path, actsOf(text)]).toEqual([path, []]);
      }
      expect(pages).toBeGreaterThan(40);
      expect(shown).toBeGreaterThan(3);
    });
  }
});
