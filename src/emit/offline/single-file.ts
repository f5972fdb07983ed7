// A page of the site as one file that stands by itself: style, faces and pictures inside, no script, nothing fetched. For a
// stick or a mail. Works on pages of our own making, never on a text of the book.

import { createHash } from 'node:crypto';
import { type Html, html, trusted } from '../html.js';
import { type Files, resolveLink } from './kept-files.js';

export interface SinglePage {
  /** Where the page stands among the files. */
  readonly path: string;
  readonly files: Files;
  /** What the copy says of itself, above all else. */
  readonly notice: Html;
}

const types: Readonly<Record<string, string>> = {
  svg: 'image/svg+xml',
  png: 'image/png',
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  gif: 'image/gif',
  webp: 'image/webp',
  avif: 'image/avif',
  woff2: 'font/woff2',
};

/** The page with all that it shows inside. Throws where a part of it is not among the files. */
export function singleFile({ path, files, notice }: SinglePage): string {
  const page = files.get(path);
  if (typeof page !== 'string') throw new Error(`There is no page ${path}`);
  const style = styleOf(path, page, files);
  return withoutLinks(withoutParts(page))
    .replace(/ src="([^"#?]+)"/g, (_, link: string) => ` src="${dataUrl(resolved(path, link), files)}"`)
    .replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, () => policyFor(style))
    .replace('</head>', () => `<style>${style}</style>\n</head>`)
    .replace('<main id="main">', (main) => `${main}\n${notice.html}`);
}

/** Takes out what does nothing without the site: scripts, links of the head, ways to other pages. */
function withoutParts(page: string): string {
  return page
    .replaceAll(/<script\b[^>]*><\/script>\n?/g, '')
    .replaceAll(/<link\b[^>]*>\n?/g, '')
    .replaceAll(/<section class="standing"[\s\S]*?<\/section>\n?/g, '')
    .replaceAll(/<section class="walk-start"[\s\S]*?<\/section>\n?/g, '')
    .replaceAll(/<button class="wrong"[\s\S]*?<\/button>\n?/g, '')
    .replaceAll(/<p class="(?:languages|print-card)">[\s\S]*?<\/p>\n?/g, '')
    .replaceAll(/ ?<a class="change"[\s\S]*?<\/a>/g, '')
    .replace(/<body\b[^>]*?( class="[^"]*")[^>]*>/, '<body$1>');
}

// a link to a page that is not in the file keeps its words
function withoutLinks(page: string): string {
  return page.replaceAll(/<a\b([^>]*)>([\s\S]*?)<\/a>/g, (link, attributes: string, words: string) => {
    if (/ href="(?:#|tel:)/.test(attributes)) return link;
    return `<span${/ class="[^"]*"/.exec(attributes)?.[0] ?? ''}>${words}</span>`;
  });
}

function styleOf(path: string, page: string, files: Files): string {
  const link = /<link rel="stylesheet" href="([^"]+)">/.exec(page)?.[1] ?? '';
  const file = resolved(path, link);
  // `url(#…)` means a part of the page itself, and `url(data:…)` is inside already
  const css = textOf(file, files).replaceAll(/url\(["']?(?!#|data:)([^"')]+)["']?\)/g, (_, target: string) => {
    return `url(${dataUrl(resolved(file, target), files)})`;
  });
  if (/<\/style/i.test(css)) throw new Error('The style would end before its end');
  return css;
}

/** What the file may do (W3C, Content Security Policy Level 3): this one style, pictures and faces inside it, nothing else. */
function policyFor(style: string): string {
  const hash = createHash('sha256').update(style).digest('base64');
  const policy = `default-src 'none'; style-src 'sha256-${hash}'; img-src data:; font-src data:; base-uri 'none'; form-action 'none'`;
  return html`<meta http-equiv="Content-Security-Policy" content="${trusted(policy)}">`.html;
}

function dataUrl(path: string, files: Files): string {
  const type = types[path.slice(path.lastIndexOf('.') + 1).toLowerCase()];
  const content = files.get(path);
  if (content === undefined || type === undefined) throw new Error(`${path} cannot be put into the file`);
  return `data:${type};base64,${Buffer.from(content).toString('base64')}`;
}

function resolved(from: string, link: string): string {
  const file = resolveLink(from, link);
  if (file === undefined) throw new Error(`${from} shows ${link}, which is not of this site`);
  return file;
}

function textOf(path: string, files: Files): string {
  const content = files.get(path);
  if (content === undefined) throw new Error(`There is no ${path}`);
  return typeof content === 'string' ? content : new TextDecoder().decode(content);
}
