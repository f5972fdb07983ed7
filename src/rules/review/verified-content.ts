// What somebody who tries a procedure on a machine has in hand, as one text, and its digest. Only what is done, asked, read
// and decided: a title, prose beside the steps and translations may be mended without a new trial.

import type { Limits } from '../../calc/limits.js';
import type { Rational } from '../../calc/rational.js';
import type {
  ResolvedAdjuster,
  ResolvedBranch,
  ResolvedCondition,
  ResolvedProcedure,
  ResolvedStep,
  ResolvedValue,
  ResolvedWorksheet,
  Variant,
} from '../../model/resolved.js';
import type { Words } from '../../model/text.js';
import { sha256 } from '../../text/sha256.js';

/**
 * `3f9a-07c2-81de`: twelve digits of the SHA-256 digest of what variants of one procedure say, in the book's first
 * language. It changes with every number, limit, state, step, order and branch, and with nothing else.
 */
export function contentDigest(variants: readonly Variant[], language: string): string {
  const texts = variants.map(({ procedure }) => procedureLines(procedure, language).join('\n'));
  const digest = sha256([...new Set(texts)].sort().join('\n\n'));
  return [digest.slice(0, 4), digest.slice(4, 8), digest.slice(8, 12)].join('-');
}

/** Parts that several rigs or procedures share are written out once: by part, by language. */
const written = new WeakMap<object, Map<string, readonly string[]>>();

function once(part: object, language: string, write: () => readonly string[]): readonly string[] {
  const known = written.get(part) ?? new Map<string, readonly string[]>();
  written.set(part, known);
  const lines = known.get(language) ?? write();
  known.set(language, lines);
  return lines;
}

function procedureLines(procedure: ResolvedProcedure, language: string): readonly string[] {
  return once(procedure, language, () => writeProcedure(procedure, language));
}

function writeProcedure(procedure: ResolvedProcedure, language: string): readonly string[] {
  const { requires, values, adjusters, worksheets, steps, anyOrder, leaves } = procedure;
  return [
    `people ${procedure.people}`,
    ...procedure.tools.map(({ id }) => `tool ${id}`),
    ...requires.map(
      ({ condition, throughout }) => `requires ${conditionText(condition)}${throughout ? ' throughout' : ''}`,
    ),
    ...values.map(valueText),
    ...adjusters.map((adjuster) => adjusterText(adjuster, language)),
    ...worksheets.map(worksheetText),
    ...steps.flatMap((step) => once(step, language, () => stepLines(step, language))),
    ...anyOrder.map((group) => `any-order ${group.join(' ')}`),
    ...[...leaves].map(([end, conditions]) => `leaves ${end} ${conditions.map(conditionText).join(', ')}`).sort(),
  ];
}

function conditionText({ state, test }: ResolvedCondition): string {
  switch (test.kind) {
    case 'words':
      return `${state} ${test.words.join('|')}`;
    case 'limits':
      return `${state} ${limitsText(test.limits)}`;
    case 'unknown':
      return `${state} ?`;
  }
}

function limitsText(limits: Limits | undefined): string {
  return limits ? `${numberText(limits.low)}..${numberText(limits.high)} ${limits.unit.symbol}` : '-';
}

function numberText(number: Rational | undefined): string {
  return number ? `${number.num}/${number.den}` : '';
}

function valueText({ id, tolerance, acceptance, inside, instrument, source, decision }: ResolvedValue): string {
  const limits = [tolerance, acceptance, inside].map(limitsText).join(' ');
  return ['value', id, limits, instrument?.id ?? '-', source.from?.source.value.trim() ?? '-', decision].join(' ');
}

function adjusterText({ id, range, smallest, moves, positive }: ResolvedAdjuster, language: string): string {
  const effects = [...moves].map(([value, { low, high }]) => `${value} ${numberText(low)}..${numberText(high)}`).sort();
  return ['adjuster', id, limitsText(range), numberText(smallest), ...effects, wordsText(positive, language)].join(' ');
}

function worksheetText({ id, rows, columns, results, source }: ResolvedWorksheet): string {
  const fromOf = (part: string): string =>
    [...source.columns, ...source.results].find((one) => one.id === part)?.from?.source.value.trim() ?? '-';
  return [
    'worksheet',
    id,
    `${rows.min}..${rows.max ?? ''}`,
    ...columns.map((column) => `${column.id} ${column.unit?.symbol ?? ''} ${fromOf(column.id)}`),
    ...results.map((result) => `${result.id} ${limitsText(result.limits)} ${fromOf(result.id)}`),
  ].join(' ');
}

function stepLines(step: ResolvedStep, language: string): readonly string[] {
  const words = [step.do, step.ask, step.expect].map((text) => wordsText(text, language));
  const typed = [
    ...[step.place, step.skill, `by ${step.by}`],
    `needs ${step.needs.map(conditionText).join(', ')}`,
    `sets ${step.sets.map(conditionText).join(', ')}`,
    `measure ${step.measure.join(' ')}`,
    ...(step.write ? [`write ${step.write.join(' ')}`] : []),
    `adjust ${step.adjust.join(' ')}`,
    `stale ${step.stale.join(' ')}`,
    `mark ${step.mark?.join(' ') ?? ''}`,
    `hold ${limitsText(step.hold?.limits)}`,
    `wait ${limitsText(step.wait?.limits)}`,
  ];
  const branches = [
    ['otherwise', step.otherwise] as const,
    ...step.when,
    ...step.answers.map(({ key, branch }) => [key, branch] as const),
    ['then', step.then] as const,
  ].flatMap(([name, branch]) => (branch ? [`  ${name} ${branchText(branch)}`] : []));
  const run = step.run ? procedureLines(step.run, language).map((line) => `  run ${line}`) : [];
  return [
    `step ${step.id}`,
    ...words.map((text) => `  ${text}`),
    ...typed.map((text) => `  ${text}`),
    ...branches,
    ...run,
  ];
}

function branchText({ go, means, atMost, otherwise }: ResolvedBranch): string {
  const counted = atMost === undefined ? '' : ` at most ${atMost}`;
  return `${go} ${means.map(conditionText).join(', ')}${counted}${otherwise ? ` else ${branchText(otherwise)}` : ''}`;
}

function wordsText(words: Words | undefined, language: string): string {
  return words?.[language]?.replaceAll(/\s+/g, ' ').trim() ?? '';
}
