// Markdown as the stretches of words that a reader takes in one go: paragraphs, list items, rows of tables. A light cut for
// rules on words: code, comments and rules between sections are left out. Renders nothing.

/** A stretch of a text; `end` is exclusive. A row of a table has the words that stand above its columns. */
export interface Block {
  readonly start: number;
  readonly end: number;
  /** The head of the table that the row belongs to. */
  readonly above?: { readonly start: number; readonly end: number };
}

const fence = /^ {0,3}(`{3,}|~{3,})/;
const item = /^\s*(?:[-*+]|\d+[.)])\s+|^\s*>\s?/;
const delimiters = /^\s*\|?\s*:?-{1,}:?\s*(?:\|\s*:?-+:?\s*)*\|?\s*$/;
const noWords = /^\s*(?:[-*_]\s*){3,}$|^\[[^\]]+\]:\s/;

/** The blocks of a section's markdown, in their order. */
export function blocksOf(markdown: string): readonly Block[] {
  const blocks: Block[] = [];
  let open: { start: number; end: number } | undefined;
  let head: Block | undefined;
  let shut: string | undefined;
  const close = (): void => {
    if (open) blocks.push(open);
    open = undefined;
  };
  for (const { text, start, end } of linesOf(withoutComments(markdown))) {
    const mark = fence.exec(text)?.[1];
    if (shut !== undefined) {
      if (mark?.startsWith(shut)) shut = undefined;
    } else if (mark) {
      close();
      shut = mark;
    } else if (text.trim() === '') {
      close();
      head = undefined;
    } else if (text.trimStart().startsWith('|')) {
      close();
      if (!delimiters.test(text)) {
        blocks.push({ start, end, ...(head ? { above: { start: head.start, end: head.end } } : {}) });
        head ??= { start, end };
      }
    } else if (noWords.test(text)) close();
    else {
      const sign = item.exec(text)?.[0].length ?? 0;
      if (sign > 0) close();
      open = { start: open?.start ?? start + sign, end };
    }
  }
  close();
  return blocks;
}

/** The text with its comments as blanks, so that places stay. */
function withoutComments(text: string): string {
  if (!text.includes('<!--')) return text;
  return text.replace(/<!--[\s\S]*?(?:-->|$)/g, (comment) => comment.replace(/[^\n]/g, ' '));
}

function* linesOf(text: string): Iterable<{ readonly text: string; readonly start: number; readonly end: number }> {
  for (let start = 0; start <= text.length; ) {
    const next = text.indexOf('\n', start);
    const end = next < 0 ? text.length : next;
    yield { text: text.slice(start, end), start, end };
    start = end + 1;
  }
}
