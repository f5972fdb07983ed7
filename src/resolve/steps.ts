// Steps for one rig, numbered as they are written over all rigs.

import { formatBoth } from '../calc/display.js';
import type { Limits } from '../calc/limits.js';
import type { NumberChoice } from '../model/numbers.js';
import type { Procedure, Step } from '../model/procedure.js';
import type { ResolvedBranch, ResolvedProcedure, ResolvedStep } from '../model/resolved.js';
import type { Text, Words } from '../model/text.js';
import type { Located } from '../text/source.js';
import type { FoundAdjusters } from './adjusters.js';
import { holdsFor } from './applies.js';
import { resolveBranch, type StepIds, stepIdsOf } from './branches.js';
import { resolveConditions } from './conditions.js';
import { findLimits } from './numbers.js';
import type { Scene } from './scene.js';
import { timeShape } from './shapes.js';
import type { FoundValues } from './values.js';
import { type Places, wordsFor } from './words.js';
import { plainWords } from './world.js';

/** What steps draw on. */
export interface Stock {
  readonly values: FoundValues;
  readonly adjusters: FoundAdjusters;
  readonly worksheets: ReadonlySet<string>;
  /** Every value, adjuster and worksheet that the procedure has for any rig. */
  readonly known: ReadonlySet<string>;
  /** The procedure of that id for the same rig. */
  readonly run: (scene: Scene, id: Located<string>) => ResolvedProcedure | undefined;
}

/** The steps that the rig has, and the places that their prose may name. */
export interface FoundSteps {
  readonly steps: readonly ResolvedStep[];
  readonly ids: StepIds;
  readonly places: ReadonlyMap<string, Places>;
}

/** Works out every step that the rig has. */
export function resolveSteps(scene: Scene, procedure: Procedure, stock: Stock): FoundSteps {
  const numbered = procedure.steps.map((step, index) => ({ step, number: index + 1 }));
  const present = numbered.filter(({ step }) => !step.only || holdsFor(scene, step.only));
  const ids = stepIdsOf(
    procedure,
    present.map(({ step }) => step),
  );
  const places = new Map<string, Places>();
  const steps = present.map(({ step, number }) => {
    const found = resolveStep(scene, step, { number, procedure, stock, ids });
    places.set(step.id.value, found.places);
    return found.step;
  });
  return { steps, ids, places };
}

interface StepContext {
  readonly number: number;
  readonly procedure: Procedure;
  readonly stock: Stock;
  readonly ids: StepIds;
}

function resolveStep(
  scene: Scene,
  source: Step,
  { number, procedure, stock, ids }: StepContext,
): { readonly step: ResolvedStep; readonly places: Places } {
  const hold = timeOf(scene, source.hold);
  const wait = timeOf(scene, source.wait);
  const places: Places = {
    values: stock.values.values,
    ...(hold ? { hold } : {}),
    ...(wait ? { wait } : {}),
  };
  const { units } = scene.book.settings;
  const callee = source.run && stock.run(scene, source.run);
  const step: ResolvedStep = {
    source,
    id: source.id.value,
    number,
    ...textsOf(scene, source, places),
    hazards: source.hazards.map(({ value }) => value).filter((id) => scene.book.hazards.has(id)),
    skill: source.skill?.value ?? procedure.skill.value,
    by: source.by?.value ?? 1,
    ...(source.place && scene.vocabulary.places.has(source.place.value) ? { place: source.place.value } : {}),
    needs: resolveConditions(scene, source.needs),
    sets: resolveConditions(scene, source.sets),
    ...actsOf(scene, source, stock),
    ...(hold ? { hold: { limits: hold, text: formatBoth(hold, units) } } : {}),
    ...(wait ? { wait: { limits: wait, text: formatBoth(wait, units) } } : {}),
    ...(callee ? { run: callee } : {}),
    ...branchesOf(scene, source, { steps: ids, places }),
    at: source.at,
  };
  return { step, places };
}

function timeOf(scene: Scene, choice: NumberChoice | undefined): Limits | undefined {
  return choice && findLimits(scene, choice, { expected: timeShape })?.limits;
}

type Texts = Pick<ResolvedStep, 'do' | 'card' | 'ask' | 'note' | 'expect' | 'figure' | 'energized'>;

function textsOf(scene: Scene, source: Step, places: Places): Texts {
  const say = <K extends string>(key: K, text: Text | undefined): { [key in K]?: Words } =>
    (text ? { [key]: wordsFor(scene, text, places) } : {}) as { [key in K]?: Words };
  const { figure, energized } = source;
  return {
    ...say('do', source.do),
    ...say('card', source.card),
    ...say('ask', source.ask),
    ...say('note', source.note),
    ...say('expect', source.expect),
    ...(figure ? { figure: { file: figure.file.value, alt: wordsFor(scene, figure.alt, places) } } : {}),
    ...(energized
      ? {
          energized: {
            why: wordsFor(scene, energized.why, places),
            ...say('keepAway', energized.keepAway),
            ...say('secondPerson', energized.secondPerson),
          },
        }
      : {}),
  };
}

type Acts = Pick<ResolvedStep, 'measure' | 'adjust' | 'stale' | 'mark' | 'photo'>;

function actsOf(scene: Scene, source: Step, { values, adjusters, worksheets, known }: Stock): Acts {
  const readings = new Set([...values.present, ...worksheets]);
  return {
    measure: presentOf(scene, source.measure, { present: readings, known }),
    adjust: presentOf(scene, source.adjust, { present: adjusters.present, known }),
    stale: source.stale.map(({ value }) => value).filter((id) => values.present.has(id)),
    ...(source.mark ? { mark: source.mark.map(({ value }) => value) } : {}),
    ...(source.photo ? { photo: source.photo.value } : {}),
  };
}

/** Those of a list that the rig has. Nothing left of it is reported: the step would do nothing that it says. */
function presentOf(
  scene: Scene,
  listed: readonly Located<string>[],
  { present, known }: { readonly present: ReadonlySet<string>; readonly known: ReadonlySet<string> },
): readonly string[] {
  const kept = listed.map(({ value }) => value).filter((id) => present.has(id));
  const [first] = listed;
  const isKnown = listed.every(({ value }) => known.has(value));
  if (first && kept.length === 0 && isKnown) {
    scene.report({
      code: 'missing-value',
      message: `These rigs have no \`${first.value}\`, and this step has nothing else to read or turn`,
      at: first.at,
      help: `Give the step the same \`only\` as \`${first.value}\`.`,
    });
  }
  return kept;
}

type Branches = Pick<ResolvedStep, 'otherwise' | 'when' | 'answers' | 'then'>;

function branchesOf(
  scene: Scene,
  source: Step,
  context: { readonly steps: StepIds; readonly places: Places },
): Branches {
  const { otherwise, then } = source;
  const resolve = (branch: NonNullable<Step['then']>): ResolvedBranch => resolveBranch(scene, branch, context);
  return {
    ...(otherwise ? { otherwise: resolve(otherwise) } : {}),
    when: new Map([...source.when].map(([outcome, branch]) => [outcome, resolve(branch)])),
    answers: source.answers.map(({ key, label, branch }) => ({
      key: key.value,
      label: label ? wordsFor(scene, label, context.places) : plainWords(scene, key.value),
      branch: resolve(branch),
    })),
    ...(then ? { then: resolve(then) } : {}),
  };
}
