// A worked-out procedure as plain JSON: everything that a page shows, under the same step numbers.

import { formatLimits } from '../../calc/display.js';
import type { Limits } from '../../calc/limits.js';
import { multiply, type Rational } from '../../calc/rational.js';
import { asDifference, type Unit } from '../../calc/unit.js';
import type {
  PlainAdjuster,
  PlainBranch,
  PlainLimits,
  PlainProcedure,
  PlainStep,
  PlainValue,
  PlainWorksheet,
} from '../../model/compiled-book.js';
import type {
  ResolvedAdjuster,
  ResolvedBranch,
  ResolvedProcedure,
  ResolvedStep,
  ResolvedValue,
  ResolvedWorksheet,
} from '../../model/resolved.js';
import { stepLabel } from '../step-label.js';
import { plainCondition, shownLimits } from './plain-conditions.js';
import { plainFraction, plainLimits, plainNumber, plainUnit } from './plain-numbers.js';
import { withoutMissing } from './without-missing.js';

/** A procedure; `prefix` stands before the numbers of its steps. */
export function plainProcedure(procedure: ResolvedProcedure, prefix = ''): PlainProcedure {
  const { source } = procedure;
  return withoutMissing({
    id: procedure.id,
    title: procedure.title,
    summary: procedure.summary,
    kind: procedure.kind,
    job: source.folder,
    revision: procedure.revision,
    status: procedure.status,
    reviewed:
      source.reviewed &&
      withoutMissing({
        on: source.reviewed.on?.value,
        by: source.reviewed.by?.value,
        next: source.reviewed.next?.value,
      }),
    verified: source.verified.map(({ machine, how, by, on }) => ({
      machine: machine.value,
      how: how.value,
      by: by.value,
      on: on.value,
    })),
    skill: procedure.skill,
    people: procedure.people,
    time: procedure.time,
    tools: procedure.tools,
    supplies: procedure.supplies,
    hazards: procedure.hazards,
    gives: procedure.gives,
    voidedBy: procedure.voidedBy,
    due:
      procedure.due &&
      (procedure.due.kind === 'season'
        ? { every: 'season' as const }
        : { every: procedure.due.unit, count: procedure.due.count }),
    requires: procedure.requires.map(({ condition, words, throughout, shownBy, ifMissed }) =>
      withoutMissing({ condition: plainCondition(condition), words, throughout, shownBy, ifMissed }),
    ),
    values: procedure.values.map(plainValue),
    adjusters: procedure.adjusters.map((adjuster) => plainAdjuster(adjuster, procedure.values)),
    worksheets: procedure.worksheets.map(plainWorksheet),
    steps: procedure.steps.map((step) => plainStep(step, prefix)),
    anyOrder: procedure.anyOrder,
    leaves: Object.fromEntries([...procedure.leaves].map(([end, list]) => [end, list.map(plainCondition)])),
    prose: procedure.prose,
  });
}

function plainValue(value: ResolvedValue): PlainValue {
  const { unit, shown, acceptance, tolerance, inside, nominal, instrument } = value;
  const limits = (of: Limits | undefined, text: string | undefined): PlainLimits | undefined =>
    of && text !== undefined ? { ...plainLimits(of, unit, text) } : undefined;
  return withoutMissing({
    id: value.id,
    label: value.label,
    quantity: value.quantity,
    unit: plainUnit(unit),
    limits: limits(acceptance, shown.acceptance),
    bookLimits: limits(tolerance, shown.tolerance),
    otherUnits: shown.other,
    band: limits(inside, shown.inside),
    nominal: limits(nominal, shown.nominal),
    resolution: value.resolution && plainNumber(value.resolution, asDifference(unit)),
    exactResolution: value.resolution && plainFraction(value.resolution),
    instrument: instrument && { id: instrument.id, label: instrument.label, builtIn: instrument.builtIn },
    readAt: value.readAt,
    needs: value.needs.map(plainCondition),
    from: value.source.from?.source.value,
    inputs: value.derived?.inputs,
    decision: value.decision,
    source: value.origin,
  });
}

function plainAdjuster(adjuster: ResolvedAdjuster, values: readonly ResolvedValue[]): PlainAdjuster {
  return withoutMissing({
    id: adjuster.id,
    label: adjuster.label,
    range: plainLimits(adjuster.range, adjuster.unit, adjuster.shown.range),
    smallest: adjuster.shown.smallest,
    exactSmallest: adjuster.smallest && plainFraction(adjuster.smallest),
    positive: adjuster.positive,
    moves: [...adjuster.moves.keys()],
    effects: [...adjuster.moves].flatMap(([id, moved]) => {
      const value = values.find((one) => one.id === id);
      return value ? [plainEffect(value, moved, adjuster.unit)] : [];
    }),
    watch: adjuster.watch,
  });
}

/** `0.045 V for 1 deg`: how far one unit of turn moves a value. */
function plainEffect(
  { id, unit }: ResolvedValue,
  { low, high }: { readonly low: Rational; readonly high: Rational },
  turn: Unit,
): PlainAdjuster['effects'][number] {
  const per = (end: Rational): number =>
    plainNumber(multiply(end, turn.factor), asDifference(unit)) * Math.PI ** turn.pi;
  const ends = [...new Set([per(low), per(high)])].join(' to ');
  return {
    value: id,
    low: plainFraction(low),
    high: plainFraction(high),
    shown: `${ends} ${unit.symbol} for 1 ${turn.symbol}`,
  };
}

function plainWorksheet(worksheet: ResolvedWorksheet): PlainWorksheet {
  const { source } = worksheet;
  return withoutMissing({
    id: worksheet.id,
    label: worksheet.label,
    decision: worksheet.decision,
    rows: withoutMissing({ min: worksheet.rows.min, max: worksheet.rows.max }),
    columns: worksheet.columns.map(({ id, label, unit, choices, instrument, limits }) =>
      withoutMissing({
        id,
        label,
        unit: unit && plainUnit(unit),
        choices: choices?.map((choice) => choice.id),
        choiceLabels: choices?.map((choice) => choice.label),
        from: source.columns.find((column) => column.id === id)?.from?.source.value,
        limits: limits && plainLimits(limits, unit ?? limits.unit, formatLimits(limits)),
        instrument: instrument && { id: instrument.id, label: instrument.label, builtIn: instrument.builtIn },
      }),
    ),
    results: worksheet.results.map(({ id, label, unit, limits, shown }) =>
      withoutMissing({
        id,
        label,
        unit: plainUnit(unit),
        from: source.results.find((result) => result.id === id)?.from.source.value,
        limits: limits && shown !== undefined ? plainLimits(limits, unit, shown) : undefined,
      }),
    ),
  });
}

function plainStep(step: ResolvedStep, prefix: string): PlainStep {
  const label = stepLabel(step, prefix);
  const list = <T>(items: readonly T[]): readonly T[] | undefined => (items.length > 0 ? items : undefined);
  return withoutMissing({
    id: step.id,
    number: label,
    do: step.do,
    ask: step.ask,
    card: step.card,
    note: step.note,
    expect: step.expect,
    figure: step.figure,
    hazards: list(step.hazards),
    skill: step.skill,
    by: step.by,
    at: step.place,
    needs: list(step.needs.map(plainCondition)),
    sets: list(step.sets.map(plainCondition)),
    measure: list(step.measure),
    write: step.write,
    adjust: list(step.adjust),
    stale: list(step.stale),
    mark: step.mark,
    photo: step.photo,
    hold: step.hold && shownLimits(step.hold.limits, step.hold.text),
    wait: step.wait && shownLimits(step.wait.limits, step.wait.text),
    run: step.run && plainProcedure(step.run, label),
    energized: step.energized,
    otherwise: step.otherwise && plainBranch(step.otherwise),
    when:
      step.when.size > 0
        ? Object.fromEntries([...step.when].map(([outcome, branch]) => [outcome, plainBranch(branch)]))
        : undefined,
    answers: list(
      step.answers.map((answer) => ({ key: answer.key, label: answer.label, ...plainBranch(answer.branch) })),
    ),
    then: step.then && plainBranch(step.then),
  });
}

function plainBranch(branch: ResolvedBranch): PlainBranch {
  return withoutMissing({
    go: branch.go,
    because: branch.because,
    means: branch.means.length > 0 ? branch.means.map(plainCondition) : undefined,
    atMost: branch.atMost,
    else: branch.otherwise && plainBranch(branch.otherwise),
  });
}
