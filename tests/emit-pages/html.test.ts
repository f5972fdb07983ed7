// The template that pages are written with: nothing that is put in can become markup.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { escapeHtml, html, isBlank, trusted } from '../../src/emit/html.js';

/** What a browser makes of the five references of the HTML standard that the template writes. */
function decode(text: string): string {
  return text
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&');
}

describe('the html template', () => {
  it('writes any text so that neither an element nor an attribute can begin or end in it', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const written = html`<p title="${text}">${text}</p>`.html;
        const inner = written.slice('<p title="'.length, -'</p>'.length);
        expect(inner.split('">')).toHaveLength(2);
        expect(inner.replace('">', '')).not.toMatch(/[<>"']/);
        expect(decode(escapeHtml(text))).toBe(text);
      }),
    );
  });

  it('leaves nothing behind for what is not there, and writes lists one after the other', () => {
    expect(html`<i>${undefined}${false}${''}</i>`.html).toBe('<i></i>');
    expect(html`<ul>${['a', '<'].map((text) => html`<li>${text}</li>`)}</ul>`.html).toBe(
      '<ul><li>a</li><li>&lt;</li></ul>',
    );
    expect(html`${0}`.html).toBe('0');
    expect([isBlank(html``), isBlank([]), isBlank(trusted('<b></b>'))]).toEqual([true, true, false]);
  });
});
