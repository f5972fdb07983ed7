// What the order proof sees of a variant, as a text: variants of equal text have equal proofs, places included.

import type { Limits } from '../calc/limits.js';
import type {
  ResolvedBranch,
  ResolvedCondition,
  ResolvedInstrument,
  ResolvedProcedure,
  ResolvedStep,
  ResolvedValue,
  ResolvedWorksheet,
  Variant,
} from '../model/resolved.js';
import type { Span } from '../text/source.js';

/** The signature of a variant with all that it runs. */
export function signatureOf({ procedure, ends }: Variant): string {
  return JSON.stringify([procedureParts(procedure), [...ends].map(([end, each]) => [end, procedureParts(each)])]);
}

function procedureParts(procedure: ResolvedProcedure): unknown {
  return [
    procedure.id,
    procedure.people,
    spanParts(procedure.source.at),
    procedure.requires.map(({ condition, throughout }) => [conditionParts(condition), throughout]),
    procedure.values.map(valueParts),
    procedure.adjusters.map(({ id, moves, watch }) => [id, [...moves.keys()], watch]),
    procedure.worksheets.map(worksheetParts),
    procedure.steps.map(stepParts),
    procedure.anyOrder,
    [...procedure.leaves].map(([end, conditions]) => [end, conditions.map(conditionParts)]),
  ];
}

function stepParts(step: ResolvedStep): unknown {
  return [
    step.id,
    step.number,
    step.by,
    step.place,
    step.hazards,
    [step.needs, step.sets].map((conditions) => conditions.map(conditionParts)),
    [step.measure, step.adjust, step.stale],
    step.run && procedureParts(step.run),
    step.energized !== undefined,
    [step.otherwise, step.then].map(branchParts),
    [...step.when].map(([outcome, branch]) => [outcome, branchParts(branch)]),
    step.answers.map(({ key, branch }) => [key, branchParts(branch)]),
    spanParts(step.at),
  ];
}

function branchParts(branch: ResolvedBranch | undefined): unknown {
  if (!branch) return null;
  const { go, means, atMost, otherwise, at } = branch;
  return [go, means.map(conditionParts), atMost, branchParts(otherwise), spanParts(at)];
}

function conditionParts({ state, test, bundle, at }: ResolvedCondition): unknown {
  const said = test.kind === 'words' ? test.words : test.kind === 'limits' ? [endParts(test.limits), test.text] : null;
  return [state, test.kind, said, bundle, spanParts(at)];
}

function endParts({ low, high, unit }: Limits): unknown {
  return [low, high].map((end) => end && `${end.num}/${end.den}`).concat(unit.symbol);
}

// Of limits only their sides matter: which readings can fail, not at which number.
function sides(limits: Limits | undefined): unknown {
  return limits && [limits.low !== undefined, limits.high !== undefined];
}

function valueParts(value: ResolvedValue): unknown {
  const { id, acceptance, tolerance, inside, readAt, needs, derived, decision, source } = value;
  const limits = [acceptance, tolerance, inside].map(sides);
  const read = [instrumentParts(value.instrument), readAt, needs.map(conditionParts), derived?.inputs];
  return [id, limits, read, decision, spanParts(source.idAt)];
}

function worksheetParts({ id, source, columns, results }: ResolvedWorksheet): unknown {
  const own = columns.map(({ instrument }) => instrumentParts(instrument));
  const judged = source.columns.some(({ limits }) => limits !== undefined);
  return [id, own, judged, results.map(({ limits }) => sides(limits)), spanParts(source.idAt)];
}

function instrumentParts(instrument: ResolvedInstrument | undefined): unknown {
  if (!instrument) return null;
  const { id, builtIn, source, needs = [] } = instrument;
  return [id, builtIn, source.readAt?.value, needs.map(conditionParts)];
}

function spanParts({ file, start, end }: Span): unknown {
  return `${file}:${start}-${end}`;
}
