// Takes out of a procedure's words the languages that it is not translated to. Working out fills those with the first
// language; a page must know, so that nothing stands there in another language unmarked.

import type {
  ResolvedAdjuster,
  ResolvedBook,
  ResolvedBranch,
  ResolvedProcedure,
  ResolvedStep,
  ResolvedValue,
  ResolvedWorksheet,
} from '../model/resolved.js';
import type { Words } from '../model/text.js';

/** The book with each procedure's own words in the languages that it is really written in. */
export function withTrueLanguages(book: ResolvedBook): ResolvedBook {
  const { languages } = book.book.settings;
  if (languages.length < 2) return book;
  const done = new Map<ResolvedProcedure, ResolvedProcedure>();
  const trueOf = (procedure: ResolvedProcedure): ResolvedProcedure => {
    const known = done.get(procedure);
    if (known) return known;
    const { title, translations } = procedure.source;
    const own = languages.filter((one, i) => i === 0 || translations.has(one) || title.languages.has(one));
    const made = strip(procedure, { keep: (words) => pick(words, own), trueOf });
    done.set(procedure, made);
    return made;
  };
  return {
    ...book,
    variants: book.variants.map((variant) => ({
      ...variant,
      procedure: trueOf(variant.procedure),
      ends: new Map([...variant.ends].map(([end, procedure]) => [end, trueOf(procedure)])),
    })),
  };
}

function pick(words: Words, languages: readonly string[]): Words {
  return Object.fromEntries(Object.entries(words).filter(([language]) => languages.includes(language)));
}

interface Stripping {
  keep(words: Words): Words;
  trueOf(procedure: ResolvedProcedure): ResolvedProcedure;
}

type WordsKey<T> = { [K in keyof T]-?: Words extends T[K] ? K : T[K] extends Words | undefined ? K : never }[keyof T];

/** A copy with the named texts stripped; those that are missing stay missing. */
function keeping<T extends object>(of: T, keys: readonly WordsKey<T>[], { keep }: Stripping): T {
  const changed: Partial<Record<keyof T, Words>> = {};
  for (const key of keys) {
    const words = of[key] as Words | undefined;
    if (words) changed[key] = keep(words);
  }
  return { ...of, ...changed };
}

function strip(procedure: ResolvedProcedure, how: Stripping): ResolvedProcedure {
  return {
    ...keeping(procedure, ['title', 'summary'], how),
    supplies: procedure.supplies.map(how.keep),
    requires: procedure.requires.map((one) => keeping(one, ['shownBy', 'ifMissed'], how)),
    values: procedure.values.map((one: ResolvedValue) => keeping(one, ['label', 'origin'], how)),
    adjusters: procedure.adjusters.map((one: ResolvedAdjuster) => keeping(one, ['label', 'positive'], how)),
    worksheets: procedure.worksheets.map((one) => stripWorksheet(one, how)),
    steps: procedure.steps.map((step) => stripStep(step, how)),
    prose: stripProse(procedure, how),
  };
}

function stripProse({ prose }: ResolvedProcedure, { keep }: Stripping): ResolvedProcedure['prose'] {
  const kept = Object.keys(keep(Object.fromEntries(Object.keys(prose).map((language) => [language, '']))));
  return Object.fromEntries(Object.entries(prose).filter(([language]) => kept.includes(language)));
}

function stripWorksheet(worksheet: ResolvedWorksheet, how: Stripping): ResolvedWorksheet {
  return {
    ...keeping(worksheet, ['label'], how),
    columns: worksheet.columns.map((column) => ({
      ...column,
      label: how.keep(column.label),
      ...(column.choices && { choices: column.choices.map((one) => ({ ...one, label: how.keep(one.label) })) }),
    })),
    results: worksheet.results.map((result) => ({ ...result, label: how.keep(result.label) })),
  };
}

function stripStep(step: ResolvedStep, how: Stripping): ResolvedStep {
  const { figure, run, energized, otherwise, then } = step;
  return {
    ...keeping(step, ['do', 'card', 'ask', 'note', 'expect'], how),
    ...(figure && { figure: { ...figure, alt: how.keep(figure.alt) } }),
    ...(run && { run: how.trueOf(run) }),
    ...(energized && { energized: keeping(energized, ['why', 'keepAway', 'secondPerson'], how) }),
    ...(otherwise && { otherwise: stripBranch(otherwise, how) }),
    ...(then && { then: stripBranch(then, how) }),
    when: new Map([...step.when].map(([outcome, branch]) => [outcome, stripBranch(branch, how)])),
    answers: step.answers.map((answer) => ({
      ...answer,
      label: how.keep(answer.label),
      branch: stripBranch(answer.branch, how),
    })),
  };
}

function stripBranch(branch: ResolvedBranch, how: Stripping): ResolvedBranch {
  const { otherwise } = branch;
  return { ...keeping(branch, ['because'], how), ...(otherwise && { otherwise: stripBranch(otherwise, how) }) };
}
