// One procedure for one rig: everything that its page says, in plain numbers and words.

import { formatBoth } from '../calc/display.js';
import type { Limits } from '../calc/limits.js';
import type { NumberChoice } from '../model/numbers.js';
import type { Procedure, ProseSection, Requirement, Step } from '../model/procedure.js';
import type {
  End,
  ResolvedCondition,
  ResolvedProcedure,
  ResolvedProse,
  ResolvedRequirement,
} from '../model/resolved.js';
import type { Located } from '../text/source.js';
import { findAdjuster } from './adjusters.js';
import { holdsFor } from './applies.js';
import { resolveCondition, resolveConditions } from './conditions.js';
import { findLimits } from './numbers.js';
import { remember, type Scene } from './scene.js';
import { timeShape } from './shapes.js';
import { findStep, stepPlaces } from './steps.js';
import { findValue, valuePlaces } from './values.js';
import { fillTemplate, wordsFor } from './words.js';
import { findWorksheet } from './worksheets.js';
import { sayCondition } from './world.js';

/** The procedure for the rig; undefined where it does not apply to it. Worked out once for all rigs that answer alike. */
export function findProcedure(scene: Scene, procedure: Procedure): ResolvedProcedure | undefined {
  return remember(scene, { of: procedure.id, key: keyOf(procedure.id) }, (own) =>
    holdsFor(own, procedure.applies) ? resolveProcedure(own, procedure) : undefined,
  );
}

function keyOf(id: string): string {
  return `procedure ${id}`;
}

/**
 * The procedure that another one runs, for the same rig. One that does not apply to it is reported. Undefined also where it
 * is unknown or runs itself, which the check of names reports. Its own faults are reported on their own.
 */
export function runProcedure(
  scene: Scene,
  id: Located<string>,
  where: 'step' | 'end' = 'step',
): ResolvedProcedure | undefined {
  const callee = scene.book.procedures.get(id.value);
  if (!callee || scene.within.includes(keyOf(id.value))) return undefined;
  const found = findProcedure({ ...scene, report: () => {} }, callee);
  if (!found) {
    scene.report({
      code: 'run-does-not-apply',
      message: `\`${id.value}\` is run here and does not apply to these rigs`,
      at: id.at,
      related: [{ message: `what \`${id.value}\` applies to`, at: callee.applies.at }],
      help: `Let \`${id.value}\` apply to them too${where === 'step' ? ', or give this step an `only`' : ''}.`,
    });
  }
  return found;
}

function resolveProcedure(outer: Scene, source: Procedure): ResolvedProcedure {
  const parameters = new Map<string, Limits>();
  const scene: Scene = { ...outer, onParameter: (path, limits) => parameters.set(path, limits) };
  const { anyOrder, values, adjusters, worksheets, steps } = source;
  const found = steps.flatMap((_, index) => findStep(scene, source, { index, run: runProcedure }) ?? []);
  const present = new Set(found.map(({ id }) => id));
  return {
    ...headOf(scene, source),
    requires: source.requires.flatMap(
      (requirement, index) => findRequirement(scene, source, { requirement, index }) ?? [],
    ),
    values: values.flatMap(({ id }) => findValue(scene, source, id) ?? []),
    parameters,
    adjusters: adjusters.flatMap(({ id }) => findAdjuster(scene, source, id) ?? []),
    worksheets: worksheets.flatMap((sheet) => findWorksheet(scene, source, sheet) ?? []),
    steps: found,
    anyOrder: anyOrder.map((group) => group.map(({ value }) => value).filter((id) => present.has(id))),
    leaves: leavesOf(scene, source),
    prose: proseOf(scene, source, present),
  };
}

type Head = Omit<
  ResolvedProcedure,
  'requires' | 'values' | 'parameters' | 'adjusters' | 'worksheets' | 'steps' | 'anyOrder' | 'leaves' | 'prose'
>;

function headOf(scene: Scene, source: Procedure): Head {
  const places = valuePlaces(source);
  const time = timeOf(scene, source);
  const known = (of: ReadonlyMap<string, unknown>, ids: readonly Located<string>[]): readonly string[] =>
    ids.map(({ value }) => value).filter((id) => of.has(id));
  return {
    source,
    id: source.id,
    kind: source.kind.value,
    revision: source.revision.value,
    status: source.status.value,
    skill: source.skill.value,
    people: source.people.value,
    title: wordsFor(scene, source.title, places),
    summary: wordsFor(scene, source.summary, places),
    ...(time ? { time } : {}),
    tools: toolsOf(scene, source),
    supplies: source.supplies.map((text) => wordsFor(scene, text, places)),
    hazards: known(scene.book.hazards, source.hazards),
    ...(source.gives && scene.book.states.has(source.gives.value) ? { gives: source.gives.value } : {}),
    voidedBy: known(scene.book.events, source.voidedBy),
    ...(source.due ? { due: source.due } : {}),
  };
}

function timeOf(scene: Scene, { time }: Procedure): ResolvedProcedure['time'] {
  if (!time) return undefined;
  const say = (key: 'total' | 'handsOn' | 'waiting', choice: NumberChoice | undefined): ResolvedProcedure['time'] => {
    const limits = choice && findLimits(scene, choice, { expected: timeShape })?.limits;
    return limits ? { [key]: formatBoth(limits, scene.book.settings.units) } : {};
  };
  return { ...say('total', time.total), ...say('handsOn', time.handsOn), ...say('waiting', time.waiting) };
}

function toolsOf(scene: Scene, source: Procedure): ResolvedProcedure['tools'] {
  return source.tools.flatMap(({ value }) => {
    const tool = scene.book.tools.get(value);
    return tool ? [{ id: value, label: wordsFor(scene, tool.label) }] : [];
  });
}

function findRequirement(
  scene: Scene,
  procedure: Procedure,
  { requirement, index }: { readonly requirement: Requirement; readonly index: number },
): ResolvedRequirement | undefined {
  return remember(scene, { of: procedure.id, key: `requirement ${procedure.id} ${index}` }, (own) => {
    if (requirement.only && !holdsFor(own, requirement.only)) return undefined;
    const condition = resolveCondition(own, requirement);
    if (!condition || !own.world) return undefined;
    const { shownBy, ifMissed, throughout, at } = requirement;
    const places = valuePlaces(procedure);
    return {
      condition,
      words: sayCondition(own.world, condition, own.book.settings.languages),
      throughout,
      ...(shownBy ? { shownBy: wordsFor(own, shownBy, places) } : {}),
      ...(ifMissed ? { ifMissed: wordsFor(own, ifMissed, places) } : {}),
      at,
    };
  });
}

function leavesOf(scene: Scene, source: Procedure): ReadonlyMap<End, readonly ResolvedCondition[]> {
  return new Map([...source.leaves].map(([end, conditions]) => [end, resolveConditions(scene, conditions)]));
}

function proseOf(scene: Scene, source: Procedure, present: ReadonlySet<string>): ResolvedProcedure['prose'] {
  const { languages } = scene.book.settings;
  const [first = ''] = languages;
  const written = new Map(source.steps.map((step) => [step.id.value, step]));
  const sectionsIn = (language: string): readonly ResolvedProse[] => {
    const sections = source.prose.get(language) ?? source.prose.get(first) ?? [];
    return sections.flatMap((section, index) => {
      const step = section.step === undefined ? undefined : written.get(section.step);
      // the detail of a step that the rig has not is none of its business
      if (step && !present.has(step.id.value)) return [];
      const work = { of: source.id, key: `prose ${source.id} ${language} ${index}` };
      return remember(scene, work, (own) => resolveSection(own, section, { source, step, language })) ?? [];
    });
  };
  return Object.fromEntries(languages.map((language) => [language, sectionsIn(language)]));
}

interface ProseContext {
  readonly source: Procedure;
  readonly step: Step | undefined;
  readonly language: string;
}

function resolveSection(
  scene: Scene,
  { heading, step: stepId, body }: ProseSection,
  { source, step, language }: ProseContext,
): ResolvedProse {
  const places = step ? stepPlaces(scene, source, step) : valuePlaces(source);
  return {
    ...(heading ? { heading: heading.text, depth: heading.depth } : {}),
    ...(stepId === undefined ? {} : { step: stepId }),
    markdown: fillTemplate(scene, body, { places, language }),
  };
}
