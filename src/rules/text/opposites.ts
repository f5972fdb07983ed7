// Words that say the opposite of each other, by language. A concept has the same name in every language, so that a text can be held
// against its translation. The patterns are for small letters without accents. Common practice, no source.

import { type Caseless, caseless } from '../../text/caseless.js';

/** The two sides of a concept: acts, and what is so after them. */
export interface Opposite {
  readonly one: Caseless;
  readonly other: Caseless;
}

/** What has two sides, in every language. */
export const concepts = ['height', 'running', 'opening', 'side', 'turn', 'tightness', 'filling'] as const;

export type Opposites = Readonly<Record<(typeof concepts)[number], Opposite>> & {
  /** The same concepts as what a state can be: `on-ground`, `off`. */
  readonly states: Readonly<Partial<Record<(typeof concepts)[number], Opposite>>>;
  /** Words that turn a sentence round: a text that has one says what it says in another way. */
  readonly negation: Caseless;
};

const english: Opposites = {
  negation: words('no|not|never|nothing|nobody|none|without|cannot'),
  height: opposite(
    'raise[sd]?|raising|lift(?:s|ed|ing)?(?= (?:the|it|both|each|a|an) )|highest|uppermost|at the top',
    'lower(?:s|ed|ing)?|lowest|lowermost|at the bottom',
  ),
  running: opposite(
    '(?<!the )start(?:s|ed)?|(?:switch|turn)(?:es|s|ed)? (?:\\S+ ){0,4}?on|engage[sd]?|(?:is|are|comes?|goes|go) (?:on|lit)|lights up',
    '(?<!(?:the|its|an?|lift|end|each|both|full) )stop(?:s|ped)?|(?:switch|turn|shut)(?:es|s|ed)? (?:\\S+ ){0,4}?(?:off|down)|disengage[sd]?|(?:is|are|goes|go) (?:off|out)',
  ),
  opening: opposite('open(?:s|ed)?', 'close[sd]?'),
  side: opposite(
    'left(?:-hand)?(?= (?:side|end|hand|one))|on the left',
    'right(?:-hand)?(?= (?:side|end|hand|one))|on the right',
  ),
  turn: opposite('(?<!counter-|anti-|counter )clockwise', '(?:counter|anti)[ -]?clockwise'),
  tightness: opposite('tighten(?:s|ed)?', 'loosen(?:s|ed)?|slacken(?:s|ed)?'),
  filling: opposite('fill(?:s|ed)?', 'empt(?:y|ies|ied)|drain(?:s|ed)?'),
  states: {
    height: opposite('raised|up|lifted|top', 'lowered|down|ground|bottom'),
    running: opposite(
      '(?<!\\S )on(?! \\S)|(?:switched|turned) on|running|engaged|idle|speed|turning',
      '(?<!\\S )off(?! \\S)|(?:switched|turned) off|stopped|disengaged|dead|still|silent',
    ),
    opening: opposite('open', 'closed|shut'),
    tightness: opposite('tight', 'slack|loose'),
    filling: opposite('full|loaded', 'empty'),
  },
};

const spanish: Opposites = {
  negation: words('no|nunca|nada|nadie|ningun[ao]?|sin|jamas'),
  height: opposite(
    'sub(?:a|e|an|en|ir|id[oa]s?)|levant(?:e|a|en|an|ar|ad[oa]s?)|elev(?:e|a|en|an|ar|ad[oa]s?)|alce|alza|alzad[oa]s?|arriba',
    'baj(?:e|a|en|an|ar|ad[oa]s?)|desciend(?:a|e)|descend(?:er|id[oa]s?)|abajo',
  ),
  running: opposite(
    'arran(?:que|ca|car|cad[oa]s?)|enciend(?:a|e)|encend(?:er|id[oa]s?)|activ(?:e|a|ar|ad[oa]s?)|conect(?:e|a|ar|ad[oa]s?)|embrag(?:ue|ad[oa]s?)',
    'par(?:e|en|ad[oa]s?)|deten(?:ga|gan|er|id[oa]s?)|apag(?:ue|a|uen|an|ar|ad[oa]s?)|desactiv(?:e|a|ar|ad[oa]s?)|desconect(?:e|a|ar|ad[oa]s?)|desembrag(?:ue|ad[oa]s?)',
  ),
  opening: opposite('abr(?:a|e|an|en|ir)|abiert[oa]s?', 'cierr(?:e|a|en|an)|cerr(?:ar|ad[oa]s?)'),
  side: opposite('izquierd[oa]s?', 'derech[oa]s?'),
  turn: opposite(
    '(?<!contrario al )sentido horario|(?<!contra |contrario a )las agujas',
    'antihorario|contrari[oa] a(?:l sentido horario| las agujas)|contra las agujas',
  ),
  tightness: opposite('apriet(?:e|a)|apret(?:ar|ad[oa]s?)', 'afloj(?:e|a|ar|ad[oa]s?)'),
  filling: opposite('llen(?:e|a|ar|o|os|as)', 'vaci(?:e|a|ar|o|os|as|ad[oa]s?)|dren(?:e|ar|ad[oa]s?)'),
  states: {
    height: opposite('(?:subi|levanta|eleva|alza)d[oa]|arriba|alto', 'bajad[oa]|abajo|suelo|bajo'),
    running: opposite(
      'encendid[oa]|en marcha|conectad[oa]|embragad[oa]|ralenti|girando',
      'apagad[oa]|parad[oa]|detenid[oa]|desconectad[oa]|desembragad[oa]|quiet[oa]',
    ),
    opening: opposite('abiert[oa]', 'cerrad[oa]'),
    tightness: opposite('tens[oa]|apretad[oa]', 'floj[oa]'),
    filling: opposite('llen[oa]|cargad[oa]', 'vaci[oa]'),
  },
};

const known: ReadonlyMap<string, Opposites> = new Map([
  ['en', english],
  ['es', spanish],
]);

/** The opposites of a language, by its code: `es-MX` has those of `es`. */
export function oppositesOf(code: string): Opposites | undefined {
  return known.get(code.split('-')[0] ?? code);
}

/** A word of one side, and where it stands in its text. */
export interface Sided {
  readonly side: 'one' | 'other';
  readonly start: number;
  readonly end: number;
}

/** What a text says of a concept; nothing where it says both sides or neither. Placeholders and names in bold say nothing. */
export function sideSaid(text: string, { one, other }: Opposite): Sided | undefined {
  const plain = plainText(text);
  const [left, right] = [one.exec(plain), other.exec(plain)];
  if ((left === null) === (right === null)) return undefined;
  const found = left ?? right;
  if (!found) return undefined;
  return { side: left ? 'one' : 'other', start: found.index, end: found.index + found[0].length };
}

/** Whether a text has a word that turns it round. */
export function isNegated(text: string, { negation }: Opposites): boolean {
  return negation.test(plainText(text));
}

let last = { text: '', plain: '' };

/** The text without accents and without what says nothing, each sign at its place. */
function plainText(text: string): string {
  // a text is asked for one concept after the other
  if (last.text !== text) last = { text, plain: withoutAccents(text.replaceAll(/\{[^{}]*\}|\*\*[^*]*\*\*/g, hide)) };
  return last.plain;
}

function hide(part: string): string {
  return '\uFFFC'.repeat(part.length);
}

function withoutAccents(text: string): string {
  return text.replaceAll(/[\u00C0-\u024F]/g, (sign) => sign.normalize('NFD')[0] ?? sign);
}

function opposite(one: string, other: string): Opposite {
  return { one: words(one), other: words(other) };
}

function words(pattern: string): Caseless {
  return caseless(`(?<![\\p{L}\\p{N}])(?:${pattern})(?![\\p{L}\\p{N}])`);
}
