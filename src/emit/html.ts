// Pieces of HTML as a tagged template that escapes whatever is put in. Knows nothing of books.

/** HTML that is safe to write into a page: made by `html`, or vouched for by `trusted`. */
export interface Html {
  readonly html: string;
}

/** What may stand in a template: `undefined`, `false` and `''` leave nothing behind. */
export type Part = Html | string | number | false | undefined | readonly Part[];

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text as HTML: also safe between the quotes of an attribute. */
export function escapeHtml(text: string): string {
  return /[&<>"']/.test(text) ? text.replaceAll(/[&<>"']/g, (sign) => entities[sign] ?? sign) : text;
}

/** `html\`<p>${text}</p>\`` escapes `text`; pieces of HTML and lists of them go in as they are. */
export function html(strings: TemplateStringsArray, ...parts: readonly Part[]): Html {
  let out = strings[0] ?? '';
  parts.forEach((part, i) => {
    out += write(part) + (strings[i + 1] ?? '');
  });
  return { html: out };
}

/** Markup that comes from a writer which escapes by itself. Never a text of the book. */
export function trusted(markup: string): Html {
  return { html: markup };
}

/** Whether a piece leaves nothing behind. */
export function isBlank(part: Part): boolean {
  return write(part) === '';
}

function write(part: Part): string {
  if (part === undefined || part === false) return '';
  if (typeof part === 'string') return escapeHtml(part);
  if (typeof part === 'number') return String(part);
  if ('html' in part) return part.html;
  return part.map(write).join('');
}
