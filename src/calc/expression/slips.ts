// Ways of writing numbers and limits that mean something to people but are not the format, each with its exact rewrite.

import type { ExpressionFault } from './ast.js';

interface Slip {
  readonly find: RegExp;
  /** Only where limits are read: in an expression the same text may be right. */
  readonly limits?: boolean;
  /** The text would be read without complaint, as something else. */
  readonly silent?: boolean;
  readonly message: (found: string) => string;
  readonly help: string | ((found: string) => string);
  /** The whole text as it should be, one for each reading. */
  readonly rewrite?: (text: string, found: RegExpExecArray) => readonly string[];
}

const number = String.raw`[+-]?(?:\d+(?:\.\d+)?|\.\d+)(?:[ \u00a0]\d+\/\d+)?`;
const spaces = String.raw`[ \u00a0]`;
// a unit may stand behind the first number of a range, but no operator
const quantity = String.raw`${number}(?:${spaces}*[\p{L}%°][^\s±+<>=–—-]*)?`;

function change(find: RegExp, by: string): (text: string) => readonly string[] {
  return (text) => [text.replace(find, by)];
}

const atLeast =
  /^\s*(?:>=|=>|≥|min(?:imum|\.)?(?!\w)(?!\s*\()|not? less than|not under|not below|At [Ll]east|AT LEAST|from)\s*(?=[\d.+-])/u;
const atMost =
  /^\s*(?:<=|=<|≤|max(?:imum|\.)?(?!\w)(?!\s*\()|not? more than|not over|not above|up to|At [Mm]ost|AT MOST)\s*(?=[\d.+-])/u;
const above = /^\s*(?:>|more than|over|above)\s*(?=[\d.])/u;
const below = /^\s*(?:<|less than|under|below)\s*(?=[\d.])/u;
// `15 min` is a time: only behind a unit is `min` a limit
const leastBehind =
  /^(.*\d\s*(?!to\b|for\b)[\p{L}%°]\S*)\s+min\.?\s*$|^(.*\d.*?)\s*\b(?:minimum|or (?:more|higher|above|over)|and (?:up|above))\s*$/u;
const mostBehind = /^(.*\d.*?)\s*\b(?:max(?:imum)?\.?|or (?:less|lower|below|under))\s*$/u;
const gluedBound = /(?<=^\s*)at(least|most)(?=\s)/u;
const between = /^\s*(?:between|from)\s+(.+?)\s+(?:and|to)\s+(.+)$/u;
const joined = new RegExp(
  String.raw`^(\s*${quantity})(?:\s*(?:[–—~…]|\.{2,})\s*|\s+(?:thru|through|till|until|bis|and)\s+)(?=[+-]?[\d.])`,
  'u',
);
const united = String.raw`(?:\d+(?:\.\d+)?|\.\d+)(?:${spaces}\d+\/\d+)?${spaces}*(?!to\b|for\b)`;
// `3.6-4.2 V`: the first number has no unit, so that it cannot be a difference; `1-5 %` could be one
const hyphened = new RegExp(String.raw`^(\s*${number})\s*-\s*(?=${united}[\p{L}%°])`, 'u');
const hyphenedTight = new RegExp(String.raw`^(\s*${number})-(?=${united}(?!ppm\b|pi\b)[\p{L}°])`, 'u');
const hyphenedBare = new RegExp(String.raw`^(\s*${number})-(?=(?:\d+(?:\.\d+)?|\.\d+)\s*$)`, 'u');

const lowerFirst = /\s-\s?((?:\d+(?:\.\d+)?|\.\d+))\s*\/\s*\+\s*((?:\d+(?:\.\d+)?|\.\d+))/u;
const unparted = new RegExp(
  String.raw`^(\s*${quantity})\s+\+(\d[^\s+/-]*(?:${spaces}[\p{L}%°]+)?)\s*,?\s*-(?=\d[^\s+/-]*(?:${spaces}[\p{L}%°]+)?\s*$)`,
  'u',
);

// `6O s`, `4.l5 V`: a letter among digits; an `l` behind them may be liters
const letterDigit =
  /(?<![\p{L}\p{N}_.])(?=[\dOoIl.]*\d)(?:[\d.]*[Oo][\dOoIl.]*|[\d.]*[Il][\dOoIl.]*[\dOo])(?![\p{L}\p{N}_])/u;
const letterDigits = new RegExp(letterDigit.source, 'gu');
// no unit and no keyword, between two numbers
const misspeltTo = new RegExp(String.raw`^(\s*${quantity})\s+(?:ot|too|tto|tot|ro|yo|tp|ti|t0)\s+(?=[+-]?[\d.])`, 'u');
const misspeltBound = /^\s*(?:at?|ta)\s+(?!least\b|most\b)([lm])\p{L}*\s+(?=[\d.+-])/u;
const spacedThousands = /(?<![\d.,/])\d{1,3}(?:[ \u00a0\u202f]\d{3})+(?![\d.,/])/u;
const hyphenedUnit =
  /(?<=\d)-(?=(?:in|ft|yd|mi|mm|cm|m|km|lb|kg|s|min|h|V|psi|bar|deg|degF|degC|rpm|mph|ac|ha|gal|L|bu)(?![\p{L}\p{N}_]))/u;

const slips: readonly Slip[] = [
  {
    find: letterDigit,
    message: (found) => `A letter stands among the digits of \`${found}\``,
    help: (found) => `Write the digits: \`${digitsFor(found)}\`.`,
    rewrite: (text) => [text.replaceAll(letterDigits, digitsFor)],
  },
  {
    find: spacedThousands,
    message: (found) => `The space in \`${found}\` parts it into two numbers`,
    help: 'Write thousands without a space.',
    rewrite: (text) => [
      text.replaceAll(new RegExp(spacedThousands.source, 'gu'), (found) => found.replaceAll(/[ \u00a0\u202f]/gu, '')),
    ],
  },
  {
    find: misspeltTo,
    limits: true,
    message: (found) => `\`${found.trim().split(/\s/).at(-1)}\` does not join two ends`,
    help: 'Did you mean `to`?',
    rewrite: change(misspeltTo, '$1 to '),
  },
  {
    find: misspeltBound,
    limits: true,
    message: (found) => `\`${found.trim()}\` does not begin limits`,
    help: (found) => `Did you mean \`${boundFor(found)}\`?`,
    rewrite: (text, [found]) => [text.replace(found, `${boundFor(found)} `)],
  },
  {
    find: hyphenedUnit,
    message: () => 'A hyphen stands between a number and its unit',
    help: 'Write a space there.',
    rewrite: change(new RegExp(hyphenedUnit.source, 'gu'), ' '),
  },
  {
    find: /\u2212/u,
    message: () => 'The minus sign here is the typographic one',
    help: 'Write the hyphen of the keyboard, `-`.',
    rewrite: change(/\u2212/gu, '-'),
  },
  {
    find: joined,
    message: (found) => `\`${found.trim()}\` does not join two ends`,
    help: 'Write `to` between the ends of a range.',
    rewrite: change(joined, '$1 to '),
  },
  {
    find: /[\u2010-\u2015]/u,
    message: () => 'The dash here is the typographic one',
    help: 'Write the hyphen of the keyboard, with a space on each side to subtract.',
    rewrite: change(/\s*[\u2010-\u2015]\s*/gu, ' - '),
  },
  {
    find: /(?<=\d\s*)(?:["“”″]|''|’’|′′)/u,
    message: (found) => `\`${found}\` is no unit`,
    help: 'Write `in` for inches and `ft` for feet.',
    rewrite: (text) => [writeFeetAndInches(text)],
  },
  {
    find: /(?<=\d\s*)['‘’′]/u,
    message: (found) => `\`${found}\` is no unit`,
    help: 'Write `ft` for feet and `in` for inches.',
    rewrite: (text) => [writeFeetAndInches(text)],
  },
  {
    find: /[½¼¾⅛⅜⅝⅞]/u,
    message: (found) => `The fraction \`${found}\` is one character`,
    help: 'Write it with a slash, as in `3 1/2 in`.',
    rewrite: (text) => [
      text.replace(
        /(\d?)\s*([½¼¾⅛⅜⅝⅞])/gu,
        (_, digit: string, sign: string) => `${digit}${digit && ' '}${fractions[sign]}`,
      ),
    ],
  },
  {
    find: /\+-(?=\s*[\d.])|-\/\+|\+\/(?!\s*-)/u,
    silent: true,
    limits: true,
    message: (found) => `\`${found}\` is no sign`,
    help: 'Write `±` or `+/-` before a tolerance.',
    rewrite: change(/\+-|-\/\+|\+\//u, '±'),
  },
  {
    find: lowerFirst,
    silent: true,
    limits: true,
    message: () => 'The upper tolerance stands first',
    help: 'Write `+` and the upper part, then `/-` and the lower part.',
    rewrite: change(lowerFirst, ' +$2/-$1'),
  },
  {
    find: unparted,
    silent: true,
    limits: true,
    message: () => 'The two parts of a tolerance are parted by a slash',
    help: 'Write `+0.3/-0.1 V`.',
    rewrite: change(unparted, '$1 +$2/-'),
  },
  {
    find: /°\s?([CFcf])\b|\bdeg(?:rees?)?\.?\s+([CFcf])\b/u,
    message: (found) => `\`${found}\` is no unit`,
    help: (found) => `Write \`deg${found.at(-1)?.toUpperCase()}\`.`,
    rewrite: (text) => [
      text.replaceAll(
        /\s*(?:°\s?|\bdeg(?:rees?)?\.?\s+)([CFcf])\b/gu,
        (_, scale: string) => ` deg${scale.toUpperCase()}`,
      ),
    ],
  },
  {
    find: /\*\*/u,
    message: () => '`**` is no operator',
    help: 'Write `^` for a power.',
    rewrite: change(/\*\*/gu, '^'),
  },
  {
    find: /[×÷]/u,
    message: (found) => `\`${found}\` is no operator`,
    help: 'Write `*` to multiply and `/` to divide.',
    rewrite: (text) => [text.replaceAll(/\s*×\s*/gu, ' * ').replaceAll(/\s*÷\s*/gu, ' / ')],
  },
  {
    find: between,
    limits: true,
    message: () => 'A range is written without a word in front',
    help: 'Write `to` between the ends.',
    rewrite: change(between, '$1 to $2'),
  },
  {
    find: atLeast,
    limits: true,
    message: (found) => `\`${found.trim()}\` does not begin limits`,
    help: 'Write `at least`.',
    rewrite: change(atLeast, 'at least '),
  },
  {
    find: atMost,
    silent: true,
    limits: true,
    message: (found) => `\`${found.trim()}\` does not begin limits`,
    help: 'Write `at most`.',
    rewrite: change(atMost, 'at most '),
  },
  {
    find: above,
    limits: true,
    message: (found) => `\`${found.trim()}\` does not begin limits`,
    help: 'Ends belong to the limits: write `at least` with the smallest value that passes.',
    rewrite: change(above, 'at least '),
  },
  {
    find: below,
    limits: true,
    message: (found) => `\`${found.trim()}\` does not begin limits`,
    help: 'Ends belong to the limits: write `at most` with the largest value that passes.',
    rewrite: change(below, 'at most '),
  },
  {
    find: leastBehind,
    limits: true,
    message: () => 'A lower limit is written in front of its number',
    help: 'Write `at least`.',
    rewrite: change(leastBehind, 'at least $1$2'),
  },
  {
    find: mostBehind,
    limits: true,
    message: () => 'An upper limit is written in front of its number',
    help: 'Write `at most`.',
    rewrite: change(mostBehind, 'at most $1'),
  },
  {
    find: gluedBound,
    limits: true,
    message: (written) => `Unexpected \`${written}\` in one word`,
    help: 'Write two words.',
    rewrite: change(gluedBound, 'at $1'),
  },
  {
    find: hyphenedTight,
    silent: true,
    message: () => 'A hyphen does not join the ends of a range',
    help: 'Write `to` between the ends.',
    rewrite: change(hyphenedTight, '$1 to '),
  },
  {
    find: hyphened,
    silent: true,
    limits: true,
    message: () => 'A hyphen does not join the ends of a range',
    help: 'Write `to` between the ends.',
    rewrite: change(hyphened, '$1 to '),
  },
  {
    find: hyphenedBare,
    silent: true,
    limits: true,
    message: () => 'A hyphen does not join the ends of a range',
    help: 'Write `to` between the ends of a range, or spaces around a minus.',
    rewrite: (text) => [text.replace(hyphenedBare, '$1 to '), text.replace(hyphenedBare, '$1 - ')],
  },
  {
    find: /^\s*(?:about|approx(?:imately|\.)?|ca\.?|circa|around|[~≈])\s*(?=[\d.])/u,
    message: (found) => `\`${found.trim()}\` does not say how far off a value may be`,
    help: 'Write the limits, as in `5 ± 0.1 V`.',
  },
];

/** What was meant by letters that look like digits. */
export function digitsFor(written: string): string {
  return written.replaceAll(/[Oo]/g, '0').replaceAll(/[Il]/g, '1');
}

function boundFor(found: string): string {
  return /\sl/.test(found.trim()) ? 'at least' : 'at most';
}

const fractions: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

function writeFeetAndInches(text: string): string {
  return text
    .replaceAll(/\s*(?:["“”″]|''|’’|′′)/gu, ' in')
    .replaceAll(/\s*['‘’′]\s*(?=\d)/gu, ' ft ')
    .replaceAll(/\s*['‘’′]/gu, ' ft')
    .replaceAll(/(\b(?:ft|in))(?=[\p{L}\d])/gu, '$1 ');
}

const silentSlips = slips.filter(({ silent }) => silent);

const decimalComma = /\d,\d+/g;
const thousandsComma = /(?<=(?<!\d)[1-9]\d{0,2}),(?=\d{3}(?!\d))/g;

/** A slip in a text that would be read without complaint, as something else than was meant. */
export function findSilentSlip(text: string, limits: boolean): ExpressionFault | undefined {
  // each of them has a hyphen, but `up to 3 %`, which would run from a value called `up`
  return /-|^\s*up\b/.test(text) ? firstOf(silentSlips, text, limits) : undefined;
}

/** The first known slip in a text, with its rewrites; undefined where none is seen. */
export function findSlip(text: string, limits: boolean): ExpressionFault | undefined {
  return findComma(text) ?? firstOf(slips, text, limits);
}

function firstOf(known: readonly Slip[], text: string, limits: boolean): ExpressionFault | undefined {
  for (const slip of known) {
    if (slip.limits && !limits) continue;
    const found = slip.find.exec(text);
    if (!found) continue;
    const rewrites = slip.rewrite?.(text, found).map((rewrite) => rewrite.trim());
    const [start, end] = [found.index, found.index + found[0].length];
    const help = typeof slip.help === 'string' ? slip.help : slip.help(found[0]);
    return { start, end, message: slip.message(found[0]), help, ...(rewrites && { rewrites }) };
  }
  return undefined;
}

// inside a call a comma parts arguments
function findComma(text: string): ExpressionFault | undefined {
  for (const found of text.matchAll(decimalComma)) {
    const before = text.slice(0, found.index);
    if (before.split('(').length > before.split(')').length) continue;
    const at = found.index + 1;
    const [start, end] = [/[\d.]*$/.exec(before)?.index ?? found.index, found.index + found[0].length];
    const decimal = `${text.slice(0, at)}.${text.slice(at + 1)}`;
    const written = text.slice(start, end);
    if (!/^[1-9]\d{0,2},\d{3}$/.test(written)) {
      return {
        start,
        end,
        message: `Unexpected comma in \`${written}\`, expected a point`,
        help: 'Write a point before the decimals.',
        rewrites: [decimal],
      };
    }
    // every number of the text is written alike
    const [whole, point] = [text.replaceAll(thousandsComma, ''), text.replaceAll(thousandsComma, '.')];
    return {
      start,
      end,
      message: `The comma in \`${written}\` may part thousands or decimals`,
      help: `Write \`${whole}\` or \`${point}\`.`,
      rewrites: [whole, point],
    };
  }
  return undefined;
}
