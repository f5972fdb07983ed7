// One change in words: where it is, what of it, for which rigs, what it said and what it says.

import type { Change, ProcedureChange, Said, Subject } from '../../model/comparison.js';
import type { Words } from '../../model/text.js';
import type { Voice } from '../voice.js';
import { changeWord } from '../words/changes.js';
import { languageNameIn } from '../words/interface.js';
import { cutSame } from './cut-same.js';

/** A change as it is shown, all of it plain text. */
export interface SaidChange {
  /** `Step 5 (lower), time to hold`. */
  readonly head: string;
  /** `new`, `moved`; empty for a plain change. */
  readonly how: string;
  /** `tarn-40, tarn-60+row-12x20`; empty for all rigs. */
  readonly rigs: string;
  readonly before?: string;
  readonly after?: string;
  /** What is to be known beside it. */
  readonly note?: string;
}

/** Who reads. The desk sees ids beside numbers and names, and rigs as they are written. */
export interface Audience {
  /** Whether somebody stands there with a card in hand: sees what stands on it, and nothing else. */
  readonly isOperator: boolean;
  sayRig(label: string): string;
}

const desk: Audience = { isOperator: false, sayRig: (label) => label };

/** A change in the language of a voice. */
export function sayChange(change: Change, voice: Voice, audience: Audience = desk): SaidChange {
  const { about, how, subject, rigs, printed } = change;
  const languages = change.languages ?? languagesOf(change, voice);
  const say = (said: Said | undefined): string | undefined =>
    said && saySaid(audience.isOperator ? inUse(said) : said, voice, languages);
  const word = (key: string, parts?: Readonly<Record<string, string>>): string =>
    changeWord(voice.language, key, parts);
  const aspect = about === 'itself' ? '' : word(about);
  const names = languages?.map((language) => languageNameIn(voice.language, language)).join(', ');
  const head = [
    subject && saySubject(subject, voice, audience),
    aspect,
    names && word('in-language', { languages: names }),
  ]
    .filter((part) => part !== undefined && part !== '')
    .join(', ');
  const isRigs = about === 'rigs-gained' || about === 'rigs-lost';
  const written = rigs.map(audience.sayRig).join(audience.isOperator ? '; ' : ', ');
  const [before, after] = [say(change.before), say(change.after)];
  const cut =
    how === 'changed' && before !== undefined && after !== undefined ? cutSame(before, after) : { before, after };
  return {
    head,
    how: how === 'changed' || isRigs ? '' : word(how),
    rigs: isRigs ? '' : written,
    ...(cut.before !== undefined && { before: cut.before }),
    ...(isRigs && written !== '' ? { after: written } : cut.after !== undefined && { after: cut.after }),
    ...(printed && !audience.isOperator && { note: word('printed', { of: printed.join(', ') }) }),
  };
}

/** A change that shows nowhere in the voice's own language is one of the book's first. */
function languagesOf({ how, before, after }: Change, voice: Voice): readonly string[] | undefined {
  if (how !== 'changed' || !before || !after || voice.language === voice.first) return undefined;
  return saySaid(before, voice) === saySaid(after, voice) ? [voice.first] : undefined;
}

/** The same on one line: `Step 5, time to hold (tarn-40): 2 to 3 s → 2 to 4 s`. */
export function lineOf({ head, how, rigs, before, after }: SaidChange): string {
  const where = rigs === '' ? '' : ` (${rigs})`;
  const what = [before, after].filter((part) => part !== undefined && part !== '').join(' → ');
  return [`${head}${where}`, how, what].filter((part) => part !== '').join(': ');
}

function saySubject(subject: Subject, voice: Voice, audience: Audience): string {
  const { kind, id, label, number, was, of } = subject;
  const key =
    kind === 'section' && number !== undefined
      ? 'subject-section-step'
      : kind === 'rule' && label
        ? 'subject-rule-called'
        : `subject-${kind}`;
  const name = label ? saySaid(label, voice) : id;
  const own = changeWord(voice.language, key, { id, label: name, number: number ?? id });
  const isCalled = kind === 'step' && number !== undefined && !audience.isOperator;
  const onCard = was !== undefined && audience.isOperator;
  const aside = isCalled
    ? ` (${id})`
    : onCard
      ? ` (${changeWord(voice.language, 'on-the-card', { number: was })})`
      : '';
  const said = own + aside;
  return of ? `${saySubject(of, voice, audience)}, ${said}` : said;
}

/** What is said, as plain text. `languages`: those whose words changed, where the voice's own did not. */
export function saySaid(said: Said, voice: Voice, languages: readonly string[] = []): string {
  switch (said.kind) {
    case 'plain':
      return voice.number(said.text);
    case 'words':
      return sayWords(inChanged(said.words, voice, languages), voice);
    case 'list':
      return said.of
        .map((one) => saySaid(one, voice, languages))
        .filter((text) => text !== '')
        .join('; ');
    case 'ui':
      return sayUi(said, voice, languages);
  }
}

// who works with a card decides by the limits in use alone
function inUse(said: Said): Said {
  return said.kind === 'ui' && said.key === 'in-use' && said.parts?.limits ? said.parts.limits : said;
}

// words that the page's language lacks say which they are in
function sayWords(words: Words, voice: Voice): string {
  const text = voice.plain(words).replaceAll(/\s+/g, ' ').trim();
  return text === '' || voice.has(words) ? text : `${text} (${languageNameIn(voice.language, voice.first)})`;
}

function inChanged(words: Words, { language }: Voice, languages: readonly string[]): Words {
  const [changed] = languages;
  if (changed === undefined || languages.includes(language)) return words;
  return { [language]: words[changed] ?? '' };
}

function sayUi({ key, parts = {} }: Said & { kind: 'ui' }, voice: Voice, languages: readonly string[]): string {
  if (key === 'is') {
    const [label, what] = [parts.label, parts.what].map((part) => (part ? saySaid(part, voice, languages) : ''));
    return `${label}: ${what}`;
  }
  if (key === 'either' && parts.of) {
    const all = parts.of.kind === 'list' ? parts.of.of : [parts.of];
    return all.map((one) => saySaid(one, voice, languages)).join(` ${changeWord(voice.language, 'or')} `);
  }
  if (key === 'run' && parts.title) return saySaid(parts.title, voice, languages);
  const said = Object.fromEntries(Object.entries(parts).map(([name, part]) => [name, saySaid(part, voice, languages)]));
  return changeWord(voice.language, key, said);
}

/** `revision 2 → 3`. */
export function sayRevision({ how, revision }: ProcedureChange, { language }: Voice): string {
  const parts = { before: revision.before ?? '', after: revision.after ?? '' };
  if (how === 'new') return changeWord(language, 'revision-new', parts);
  if (how === 'gone') return changeWord(language, 'revision-gone', parts);
  return changeWord(language, revision.before === revision.after ? 'revision-same' : 'revision-from-to', parts);
}
