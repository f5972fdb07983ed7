// Steps for one rig, numbered as they are written over all rigs.

import { formatBoth } from '../calc/display.js';
import type { Limits } from '../calc/limits.js';
import type { NumberChoice } from '../model/numbers.js';
import type { Procedure, Step } from '../model/procedure.js';
import type { ResolvedBranch, ResolvedProcedure, ResolvedStep } from '../model/resolved.js';
import type { Text, Words } from '../model/text.js';
import type { Located } from '../text/source.js';
import { isAdjusterPresent } from './adjusters.js';
import { isStepPresent, resolveBranch } from './branches.js';
import { resolveConditions } from './conditions.js';
import { findLimits } from './numbers.js';
import { remember, type Scene } from './scene.js';
import { timeShape } from './shapes.js';
import { isValuePresent, valuePlaces } from './values.js';
import { type Places, wordsFor } from './words.js';
import { plainWords } from './world.js';

/** The procedure of that id for the same rig. */
export type Run = (scene: Scene, id: Located<string>) => ResolvedProcedure | undefined;

interface StepContext {
  readonly procedure: Procedure;
  readonly places: Places;
}

/** A step for the rig, by its place in the procedure; undefined where the rig has it not. */
export function findStep(
  scene: Scene,
  procedure: Procedure,
  { index, run }: { readonly index: number; readonly run: Run },
): ResolvedStep | undefined {
  return remember(scene, { of: procedure.id, key: `step ${procedure.id} ${index}` }, (own) => {
    const step = procedure.steps[index];
    return step && isStepPresent(own, step) ? resolveStep(own, step, { procedure, number: index + 1, run }) : undefined;
  });
}

/** What the texts of a step may name. */
export function stepPlaces(scene: Scene, procedure: Procedure, step: Step): Places {
  const hold = timeOf(scene, step.hold);
  const wait = timeOf(scene, step.wait);
  return { ...valuePlaces(procedure), ...(hold ? { hold } : {}), ...(wait ? { wait } : {}) };
}

function resolveStep(
  scene: Scene,
  source: Step,
  { procedure, number, run }: { readonly procedure: Procedure; readonly number: number; readonly run: Run },
): ResolvedStep {
  const places = stepPlaces(scene, procedure, source);
  const { hold, wait } = places;
  const { units } = scene.book.settings;
  const callee = source.run && run(scene, source.run);
  return {
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
    ...actsOf(scene, source, procedure),
    ...(hold ? { hold: { limits: hold, text: formatBoth(hold, units) } } : {}),
    ...(wait ? { wait: { limits: wait, text: formatBoth(wait, units) } } : {}),
    ...(callee ? { run: callee } : {}),
    ...branchesOf(scene, source, { procedure, places }),
    at: source.at,
  };
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

type Acts = Pick<ResolvedStep, 'measure' | 'write' | 'adjust' | 'stale' | 'mark' | 'photo'>;

function actsOf(scene: Scene, source: Step, procedure: Procedure): Acts {
  const isSheet = (id: string): boolean => procedure.worksheets.some((sheet) => sheet.id === id);
  const isReading = (id: string): boolean => isSheet(id) || isValuePresent(scene, procedure, id);
  const known = new Set([...procedure.values, ...procedure.adjusters, ...procedure.worksheets].map(({ id }) => id));
  return {
    measure: presentOf(scene, source.measure, { known, isPresent: isReading }),
    ...(source.write.length > 0 ? { write: source.write.map(({ value }) => value).filter(isSheet) } : {}),
    adjust: presentOf(scene, source.adjust, { known, isPresent: (id) => isAdjusterPresent(scene, procedure, id) }),
    stale: source.stale.map(({ value }) => value).filter((id) => isValuePresent(scene, procedure, id)),
    ...(source.mark ? { mark: source.mark.map(({ value }) => value) } : {}),
    ...(source.photo ? { photo: source.photo.value } : {}),
  };
}

interface Stock {
  /** Every value, adjuster and worksheet that the procedure has for any rig. */
  readonly known: ReadonlySet<string>;
  readonly isPresent: (id: string) => boolean;
}

/** Those of a list that the rig has. Nothing left of it is reported: the step would do nothing that it says. */
function presentOf(scene: Scene, listed: readonly Located<string>[], { known, isPresent }: Stock): readonly string[] {
  const kept = listed.map(({ value }) => value).filter(isPresent);
  const [first] = listed;
  const isKnown = listed.every(({ value }) => known.has(value));
  if (first && kept.length === 0 && isKnown) {
    scene.report({
      code: 'value-not-on-rig',
      message: `These rigs have no \`${first.value}\`, and this step has nothing else to read or turn`,
      at: first.at,
      help: `Give the step the same \`only\` as \`${first.value}\`.`,
    });
  }
  return kept;
}

type Branches = Pick<ResolvedStep, 'otherwise' | 'when' | 'answers' | 'then'>;

function branchesOf(scene: Scene, source: Step, context: StepContext): Branches {
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
