// Texts of a book: words in one or more languages, with places where values go in, and choices by rig.

import type { Located, SourceText, Span } from '../text/source.js';

/** Either one entry, or a map from rig keys (machine, header, header type, option, software version, `other`) to more. */
export type Choice<T> =
  | { readonly kind: 'one'; readonly value: T; readonly at: Span }
  | {
      readonly kind: 'choice';
      readonly entries: readonly { readonly key: Located<string>; readonly value: Choice<T> }[];
      readonly at: Span;
    };

/** `{raised}` or `{machine.learn_key}`; `path` is what stands between the braces, trimmed. */
export type TemplatePart =
  | { readonly kind: 'words'; readonly text: string }
  | { readonly kind: 'place'; readonly path: string; readonly at: Span };

/** A text with its placeholders found; `{{` and `}}` already undone in the words. */
export interface Template {
  readonly source: SourceText;
  readonly parts: readonly TemplatePart[];
}

/** A text in the languages it is written in. The book's first language is always there. */
export interface Text {
  readonly at: Span;
  readonly languages: ReadonlyMap<string, Choice<Template>>;
}

/** A text worked out for one rig: language to words, placeholders filled, numbers joined to units by U+00A0. */
export type Words = Readonly<Record<string, string>>;
