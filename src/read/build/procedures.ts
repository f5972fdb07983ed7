// Every procedure of a book with its translations. One that could not be understood whole is left out, and said to be.

import { type Diagnostic, diagnose } from '../../diagnostic/diagnostic.js';
import type { Procedure } from '../../model/procedure.js';
import type { Keep } from '../../text/keep.js';
import type { Located, SourceFile } from '../../text/source.js';
import { fileAt } from './files.js';
import { checkKebab } from './names.js';
import { type Opened, openFile } from './open.js';
import { countBehind, partOf } from './part.js';
import { type ProcedureSource, procedureOf } from './procedure.js';
import { filled, type Reading, startReading } from './reading.js';
import { reportBehind, reportExtras, reportOrder, type Translation } from './translation.js';

/** What was read of the procedures. */
export interface Procedures {
  readonly procedures: ReadonlyMap<string, Procedure>;
  readonly diagnostics: readonly Diagnostic[];
  readonly unread: ReadonlySet<string>;
}

interface OpenedTranslation extends Opened {
  readonly language: string;
}

/** What is known of the rest of the book. */
type Known = Pick<Reading, 'languages' | 'stateKinds'>;

/**
 * Reads all procedures; files come in the order of their paths. One that is the same as before, with its translations, is
 * the very same object.
 */
export function readProcedures(
  sources: ReadonlyMap<string, SourceFile>,
  { keep, ...known }: Known & { readonly keep: Keep },
): Procedures {
  const diagnostics: Diagnostic[] = [];
  const unread = new Set<string>();
  const procedures = new Map<string, Procedure>();
  const firstFile = new Map<string, string>();
  const translations = openTranslations(sources, { ...known, keep }, diagnostics);
  for (const one of [...translations.values()].flat()) if (one.hasGaps) unread.add(one.file.path);
  for (const file of sources.values()) {
    const found = fileAt(file.path);
    if (found.kind !== 'procedure') continue;
    const capital = capitalLanguage(file, sources, known.languages);
    if (capital) {
      diagnostics.push(capital);
      continue;
    }
    const before = firstFile.get(found.id);
    if (before !== undefined) diagnostics.push(sameId(file, found.id, before));
    else firstFile.set(found.id, file.path);
    const one: One = {
      id: found.id,
      opened: openFile(file, 'procedure', keep),
      translations: translations.get(file.path) ?? [],
    };
    const parts = [one.opened, ...one.translations, known.languages, known.stateKinds];
    const read = keep(`procedure ${file.path}`, parts, () => {
      const reading = startReading(file, known);
      const procedure = readOne(reading, one);
      return { procedure, diagnostics: reading.diagnostics, hasGaps: reading.gaps.length > 0 };
    });
    diagnostics.push(...one.opened.diagnostics, ...read.diagnostics);
    if (one.opened.hasGaps || read.hasGaps || !read.procedure) unread.add(file.path);
    else if (before === undefined) procedures.set(found.id, read.procedure);
  }
  return { procedures: keep('procedures', [...procedures].flat(), () => procedures), diagnostics, unread };
}

interface One {
  readonly id: string;
  readonly opened: Opened;
  readonly translations: readonly OpenedTranslation[];
}

function readOne(reading: Reading, { id, opened, translations }: One): Procedure | undefined {
  const { file, node, body } = opened;
  checkKebab(reading, { value: id, at: topOf(file) }, 'a procedure');
  if (!node || !body) return undefined;
  const read = translations.flatMap((one): readonly (Translation & OpenedTranslation)[] => {
    const translates = one.node && countBehind(reading, partOf(one.node), 'translates');
    return one.node ? [filled({ ...one, node: one.node, translates })] : [];
  });
  const words = new Map(read.map((one) => [one.language, one.node] as const));
  const main = reading.languages[0] ?? 'en';
  const bodies: readonly (readonly [string, Opened])[] = [
    [main, opened],
    ...read.map((one) => [one.language, one] as const),
  ];
  const source: ProcedureSource = {
    id,
    file,
    part: { node, words },
    prose: new Map(
      bodies.flatMap(([code, one]) => (one.body ? [[code, { file: one.file, body: one.body }] as const] : [])),
    ),
    translations: new Map(
      read.flatMap(({ language, file: { path }, translates }) =>
        translates ? [[language, { file: path, translates }] as const] : [],
      ),
    ),
  };
  const procedure = procedureOf(reading, source);
  const revision = countBehind(reading, partOf(node), 'revision');
  for (const translation of read) {
    reportExtras(reading, translation, { known: translation.diagnostics, original: node });
    reportOrder(reading, translation, node);
    if (revision) reportBehind(reading, translation, revision);
  }
  reportMissing(reading, source, translations);
  return procedure;
}

/** Hints at texts that a translation lacks, or once at the translation that is missing as a whole. */
function reportMissing(reading: Reading, source: ProcedureSource, translations: readonly OpenedTranslation[]): void {
  for (const language of reading.languages.slice(1)) {
    const places = reading.missing.filter((text) => text.language === language).map(({ at }) => at);
    const [first] = places;
    if (!first) continue;
    const translation = translations.find((one) => one.language === language);
    const file = translation?.file.path;
    // what a file that could not be read translates is not known
    if (translation && !translation.node) continue;
    if (file === undefined) {
      const path = source.file.path.replace(/\.md$/, `.${language}.md`);
      reading.diagnostics.push(
        diagnose({
          code: 'missing-translation',
          severity: 'hint',
          message: `This procedure has no \`${language}\``,
          at: first,
          help: `Write \`${path}\` with its texts by key and step id, and \`translates:\` with the revision.`,
        }),
      );
    } else {
      for (const at of places) {
        const message = `\`${file}\` does not translate this text`;
        const help = `Add it there under the same key.`;
        reading.diagnostics.push(diagnose({ code: 'missing-translation', severity: 'hint', message, at, help }));
      }
    }
  }
}

function openTranslations(
  sources: ReadonlyMap<string, SourceFile>,
  { keep, languages }: Pick<Reading, 'languages'> & { readonly keep: Keep },
  diagnostics: Diagnostic[],
): ReadonlyMap<string, readonly OpenedTranslation[]> {
  const opened = new Map<string, OpenedTranslation[]>();
  for (const file of sources.values()) {
    const found = fileAt(file.path);
    if (found.kind !== 'translation') continue;
    const { language, original } = found;
    const fault = strayTranslation(file, { language, hasOriginal: sources.has(original), original }, languages);
    if (fault) diagnostics.push(fault);
    const opening = openFile(file, 'translation', keep);
    const one = keep(`translation ${file.path}`, [opening, language], () => ({ ...opening, language }));
    diagnostics.push(...one.diagnostics);
    if (!fault) opened.set(original, [...(opened.get(original) ?? []), one]);
  }
  return opened;
}

function strayTranslation(
  file: SourceFile,
  of: { readonly language: string; readonly hasOriginal: boolean; readonly original: string },
  languages: readonly string[],
): Diagnostic | undefined {
  const at = topOf(file);
  if (!of.hasOriginal) {
    return diagnose({
      code: 'translation-without-original',
      severity: 'error',
      message: `There is no \`${of.original}\`, which this file would translate`,
      at,
      help: 'Give both files the same name, with the language before `.md` in the name of the translation.',
    });
  }
  if (languages.slice(1).includes(of.language)) return undefined;
  const isMain = of.language === languages[0];
  return diagnose({
    code: 'unknown-language',
    severity: 'error',
    message: isMain
      ? `\`${of.language}\` is the language that the book is written in, and \`${of.original}\` has it already`
      : `\`${of.language}\` is no language of the book`,
    at,
    help: isMain
      ? 'Delete this file, or mend the language in its name.'
      : 'Mend the language in the name of the file, or add it to `languages` in book.yaml.',
  });
}

/** `name.ES.md` beside `name.md`: a translation, but for the capitals in its name. */
function capitalLanguage(
  file: SourceFile,
  sources: ReadonlyMap<string, SourceFile>,
  languages: readonly string[],
): Diagnostic | undefined {
  const [, original = '', written = ''] = /^(.*)\.([^./]+)\.md$/.exec(file.path) ?? [];
  const language = languages.slice(1).find((one) => one.toLowerCase() === written.toLowerCase());
  if (language === undefined || !sources.has(`${original}.md`)) return undefined;
  return diagnose({
    code: 'unknown-language',
    severity: 'error',
    message: `\`${written}\` is no language of the book, and \`${language}\` is: a translation has it in its name as the book writes it`,
    at: topOf(file),
    help: `Call the file \`${original.slice(original.lastIndexOf('/') + 1)}.${language}.md\`.`,
  });
}

function sameId(file: SourceFile, id: string, before: string): Diagnostic {
  return diagnose({
    code: 'duplicate-id',
    severity: 'error',
    message: `Two procedures have the id \`${id}\`: \`${before}\` and \`${file.path}\``,
    at: topOf(file),
    related: [{ message: 'The first one', at: { file: before, start: 0, end: 0 } }],
    help: 'Give one of the two files another name.',
  });
}

/** The first line of a file: where something is said of the file as a whole. */
function topOf(file: SourceFile): Located<string>['at'] {
  const end = /^[^\r\n]*/.exec(file.text)?.[0].length ?? 0;
  return { file: file.path, start: 0, end };
}
