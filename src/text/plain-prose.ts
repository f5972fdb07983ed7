// Prose that is nothing in markdown but paragraphs and headings: most of it is, and needs no parser to be cut or drawn.
// Where a line may mean anything else, this says that it does not know.

/** A heading of plain prose; offsets are in the text. */
export interface PlainHeading {
  readonly depth: 1 | 2 | 3 | 4 | 5 | 6;
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

// A line that begins with a letter begins no list, quote, table, rule or code, and is no line below a heading.
const plainLine = /^(?:#{1,6} )?[\p{L}{"'(“‘¿¡][^\p{Cc}\u2028\u2029\\`*_~[\]<>&|#]*$/u;

/**
 * The headings of a text in which a markdown parser would find only headings, and paragraphs of words without a mark;
 * undefined where it may find more. Between paragraphs stand empty lines, and no line ends in a blank.
 */
export function plainHeadings(text: string): readonly PlainHeading[] | undefined {
  const headings: PlainHeading[] = [];
  for (let start = 0; start < text.length; ) {
    const next = text.indexOf('\n', start);
    const end = next < 0 ? text.length : next;
    const line = text.slice(start, end);
    if (line !== '' && (line.endsWith(' ') || !plainLine.test(line))) return undefined;
    if (line.startsWith('#')) {
      const depth = line.indexOf(' ') as PlainHeading['depth'];
      headings.push({ depth, text: line.slice(depth + 1), start, end });
    }
    start = end + 1;
  }
  return headings;
}

/** The paragraphs of such a text without headings; undefined where it may be more than paragraphs. */
export function plainParagraphs(text: string): readonly string[] | undefined {
  const headings = plainHeadings(text);
  if (headings === undefined || headings.length > 0) return undefined;
  return text
    .split(/\n{2,}/)
    .map((paragraph) => paragraph.replace(/^\n|\n$/g, ''))
    .filter((paragraph) => paragraph !== '');
}
