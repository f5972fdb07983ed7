// One procedure for one rig: everything that its page says, in plain numbers and words.

import { formatBoth } from '../calc/display.js';
import type { Limits } from '../calc/limits.js';
import type { NumberChoice } from '../model/numbers.js';
import type { Procedure, ProseSection } from '../model/procedure.js';
import type {
  End,
  ResolvedCondition,
  ResolvedProcedure,
  ResolvedProse,
  ResolvedRequirement,
} from '../model/resolved.js';
import type { Located } from '../text/source.js';
import { resolveAdjusters } from './adjusters.js';
import { holdsFor } from './applies.js';
import { resolveCondition, resolveConditions } from './conditions.js';
import { findLimits } from './numbers.js';
import { remember, type Scene } from './scene.js';
import { timeShape } from './shapes.js';
import { type FoundSteps, resolveSteps } from './steps.js';
import { resolveValues } from './values.js';
import { fillTemplate, type Places, wordsFor } from './words.js';
import { resolveWorksheets } from './worksheets.js';
import { sayCondition } from './world.js';

/** The procedure for the rig; undefined where it does not apply to it. Worked out once for all rigs that answer alike. */
export function findProcedure(scene: Scene, procedure: Procedure): ResolvedProcedure | undefined {
  return remember(scene, keyOf(procedure.id), (own) =>
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
export function runProcedure(scene: Scene, id: Located<string>): ResolvedProcedure | undefined {
  const callee = scene.book.procedures.get(id.value);
  if (!callee || scene.within.includes(keyOf(id.value))) return undefined;
  const found = findProcedure({ ...scene, report: () => {} }, callee);
  if (!found) {
    scene.report({
      code: 'run-does-not-apply',
      message: `\`${id.value}\` is run here and does not apply to these rigs`,
      at: id.at,
      related: [{ message: `what \`${id.value}\` applies to`, at: callee.applies.at }],
      help: `Let \`${id.value}\` apply to them too, or give this step an \`only\`.`,
    });
  }
  return found;
}

function resolveProcedure(outer: Scene, source: Procedure): ResolvedProcedure {
  const parameters = new Map<string, Limits>();
  const scene: Scene = { ...outer, onParameter: (path, limits) => parameters.set(path, limits) };
  const values = resolveValues(scene, source);
  const adjusters = resolveAdjusters(scene, source, values);
  const worksheets = resolveWorksheets(scene, source);
  const written = [...source.values, ...source.adjusters, ...source.worksheets].map(({ id }) => id);
  const steps = resolveSteps(scene, source, {
    values,
    adjusters,
    worksheets: new Set(source.worksheets.map(({ id }) => id)),
    known: new Set(written),
    run: runProcedure,
  });
  const places = { values: values.values };
  const time = timeOf(scene, source);
  const known = (of: ReadonlyMap<string, unknown>) => (ids: readonly Located<string>[]) =>
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
    hazards: known(scene.book.hazards)(source.hazards),
    ...(source.gives && scene.book.states.has(source.gives.value) ? { gives: source.gives.value } : {}),
    voidedBy: known(scene.book.events)(source.voidedBy),
    ...(source.due ? { due: source.due } : {}),
    requires: requirementsOf(scene, source, places),
    values: [...values.values.values()],
    parameters,
    adjusters: adjusters.adjusters,
    worksheets,
    steps: steps.steps,
    anyOrder: source.anyOrder.map((group) => group.map(({ value }) => value).filter((id) => steps.ids.present.has(id))),
    leaves: leavesOf(scene, source),
    prose: proseOf(scene, source, { steps, places }),
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

function requirementsOf(scene: Scene, source: Procedure, places: Places): readonly ResolvedRequirement[] {
  return source.requires.flatMap((requirement) => {
    if (requirement.only && !holdsFor(scene, requirement.only)) return [];
    const condition = resolveCondition(scene, requirement);
    if (!condition || !scene.world) return [];
    const { shownBy, ifMissed, throughout, at } = requirement;
    return [
      {
        condition,
        words: sayCondition(scene.world, condition, scene.book.settings.languages),
        throughout,
        ...(shownBy ? { shownBy: wordsFor(scene, shownBy, places) } : {}),
        ...(ifMissed ? { ifMissed: wordsFor(scene, ifMissed, places) } : {}),
        at,
      },
    ];
  });
}

function leavesOf(scene: Scene, source: Procedure): ReadonlyMap<End, readonly ResolvedCondition[]> {
  return new Map([...source.leaves].map(([end, conditions]) => [end, resolveConditions(scene, conditions)]));
}

interface ProseContext {
  readonly steps: FoundSteps;
  readonly places: Places;
}

function proseOf(scene: Scene, source: Procedure, context: ProseContext): ResolvedProcedure['prose'] {
  const { languages } = scene.book.settings;
  const [first = ''] = languages;
  return Object.fromEntries(
    languages.map((language) => {
      const sections = source.prose.get(language) ?? source.prose.get(first) ?? [];
      return [language, sections.flatMap((section) => resolveSection(scene, section, { ...context, language }) ?? [])];
    }),
  );
}

function resolveSection(
  scene: Scene,
  { heading, step, body }: ProseSection,
  { steps, places, language }: ProseContext & { readonly language: string },
): ResolvedProse | undefined {
  // the detail of a step that the rig has not is none of its business
  if (step !== undefined && steps.ids.written.has(step) && !steps.ids.present.has(step)) return undefined;
  const own = (step === undefined ? undefined : steps.places.get(step)) ?? places;
  return {
    ...(heading ? { heading: heading.text, depth: heading.depth } : {}),
    ...(step === undefined ? {} : { step }),
    markdown: fillTemplate(scene, body, { places: own, language }),
  };
}
