// Markdown of the book as HTML. Raw HTML, scripts and outside pictures never come through; links lead only where it is safe.

import type { Element, ElementContent, Root, RootContent } from 'hast';
import { toHtml } from 'hast-util-to-html';
import type { Nodes } from 'mdast';
import { fromMarkdown, type Options } from 'mdast-util-from-markdown';
import { gfmTableFromMarkdown } from 'mdast-util-gfm-table';
import { toHast } from 'mdast-util-to-hast';
import { gfmTable } from 'micromark-extension-gfm-table';
import { plainParagraphs } from '../text/plain-prose.js';
import { escapeHtml, type Html, trusted } from './html.js';

/** Where links and pictures of the book lead on the page; undefined takes the link away and leaves its words. */
export interface Links {
  /** `learn-height-range.md`, `#lower`. Outside addresses (http, tel, mailto) are not asked for. */
  link(target: string): string | undefined;
  /** `figures/arm.svg`. */
  figure(file: string): string | undefined;
  /** A step that is named by its id, as in: step `lower`. Undefined where none is called so. */
  step?(id: string): NamedStep | undefined;
}

/** A step in a text: readers see its number, which is the same on phone, card and paper, and never its id. */
export interface NamedStep {
  readonly href: string;
  /** `4.1` */
  readonly label: string;
  /** `step 4.1` */
  readonly text: string;
}

const noLinks: Links = { link: () => undefined, figure: () => undefined };

const blocks: Options = { extensions: [gfmTable()], mdastExtensions: [gfmTableFromMarkdown()] };

// a step is one line of text: a leading `-` or `1.` in it is no list
const inlineOnly: Options = {
  extensions: [
    {
      disable: {
        null: [
          'blockQuote',
          'codeFenced',
          'codeIndented',
          'definition',
          'headingAtx',
          'htmlFlow',
          'htmlText',
          'list',
          'setextUnderline',
          'thematicBreak',
        ],
      },
    },
  ],
};

const markdownSign = /[*_`[\]\\&!~]|https?:/;

/** One line of text: emphasis, code and links, no blocks. HTML in it is shown as the signs that were typed. */
export function inlineMarkdown(text: string, links: Links = noLinks): Html {
  if (!markdownSign.test(text)) return trusted(escapeHtml(text));
  const tree = hastOf(fromMarkdown(text, inlineOnly), links);
  const inner = tree.children.flatMap((child): RootContent[] =>
    child.type === 'element' && child.tagName === 'p' ? child.children : [child],
  );
  return trusted(toHtml({ type: 'root', children: inner }));
}

/** The words of one line without its markdown, for titles and attributes. */
export function plainText(text: string): string {
  if (!markdownSign.test(text)) return text;
  return textOf(hastOf(fromMarkdown(text, inlineOnly), noLinks)).trim();
}

/** A stretch of prose. Its headings start below `level`: a `##` under `level` 2 becomes an h3. */
export function blockMarkdown(text: string, options: { readonly level: number; readonly links: Links }): Html {
  const plain = plainParagraphs(text);
  if (plain) return trusted(plain.map((paragraph) => `<p>${paragraph}</p>`).join('\n'));
  const tree = hastOf(fromMarkdown(text, blocks), options.links);
  for (const child of tree.children) lowerHeading(child, options.level);
  return trusted(toHtml({ type: 'root', children: tree.children.map(wrapTable) }));
}

function hastOf(tree: Nodes, links: Links): Root {
  const hast = toHast(tree);
  const root: Root = hast.type === 'root' ? hast : { type: 'root', children: [hast as RootContent] };
  root.children = root.children.flatMap((child) => cleaned(child, links)) as RootContent[];
  return root;
}

function cleaned(node: RootContent, links: Links, before?: RootContent): RootContent[] {
  if (node.type === 'text') return [node];
  if (node.type !== 'element') return [];
  const step = node.tagName === 'code' ? links.step?.(textOf(node)) : undefined;
  if (step) return [linkToStep(step, before)];
  const children = node.children.flatMap((child, i) => cleaned(child, links, node.children[i - 1])) as ElementContent[];
  if (node.tagName === 'a') return cleanedLink({ ...node, children }, links);
  if (node.tagName === 'img') return cleanedPicture(node, links);
  return [{ ...node, properties: alignment(node), children }];
}

/** Its number behind the word for steps, and the word with it where that is not there. */
function linkToStep({ href, label, text }: NamedStep, before: RootContent | undefined): Element {
  const word = text.replace(label, '').trim().toLowerCase();
  const said = before?.type === 'text' ? before.value.trimEnd().toLowerCase() : '';
  const isSaid = said.endsWith(word) || said.endsWith(`${word}s`);
  const children = [{ type: 'text' as const, value: isSaid ? label : text }];
  return { type: 'element', tagName: 'a', properties: { href }, children };
}

const outside = /^(?:https?:\/\/|mailto:|tel:)/i;

function cleanedLink(node: Element, links: Links): RootContent[] {
  const target = String(node.properties.href ?? '');
  const href = outside.test(target) ? target : /^[a-z][a-z0-9+.-]*:/i.test(target) ? undefined : links.link(target);
  if (href === undefined) return node.children;
  return [{ ...node, properties: outside.test(target) ? { href, rel: ['noreferrer'] } : { href } }];
}

function cleanedPicture(node: Element, links: Links): RootContent[] {
  const alt = String(node.properties.alt ?? '');
  const src = links.figure(String(node.properties.src ?? ''));
  if (src === undefined) return alt === '' ? [] : [{ type: 'text', value: alt }];
  return [{ type: 'element', tagName: 'img', properties: { src, alt }, children: [] }];
}

// styles in attributes are forbidden on the page: the alignment of a table's column becomes a class
function alignment(node: Element): Element['properties'] {
  if (node.tagName === 'ol') return node.properties.start === undefined ? {} : { start: node.properties.start };
  if (node.tagName !== 'td' && node.tagName !== 'th') return {};
  const align = node.properties.align;
  const scope = node.tagName === 'th' ? { scope: 'col' } : {};
  return align === undefined || align === null ? scope : { ...scope, className: [`align-${align}`] };
}

function lowerHeading(node: RootContent, level: number): void {
  if (node.type !== 'element') return;
  const depth = /^h([1-6])$/.exec(node.tagName)?.[1];
  if (depth !== undefined) node.tagName = `h${Math.min(6, Math.max(level + 1, Number(depth) + level - 1))}`;
}

// a wide table scrolls in its own box, which a keyboard must be able to reach
function wrapTable(node: RootContent): RootContent {
  if (node.type !== 'element' || node.tagName !== 'table') return node;
  return { type: 'element', tagName: 'div', properties: { className: ['scroll'], tabIndex: 0 }, children: [node] };
}

function textOf(node: Root | RootContent): string {
  if (node.type === 'text') return node.value;
  return 'children' in node ? node.children.map(textOf).join('') : '';
}
