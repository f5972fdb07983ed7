// States, physics and safety rules with their bundles filled in: the same for every rig.

import type { StateVariable } from '../model/conditions.js';
import type { End, ResolvedCondition, ResolvedRule, ResolvedVariable, World } from '../model/resolved.js';
import type { Words } from '../model/text.js';
import { resolveConditions } from './conditions.js';
import { sayEither, sayLimits } from './number-words.js';
import type { Scene } from './scene.js';
import { wordsFor } from './words.js';

/** Works out what holds for all rigs alike. `scene` must be one without a rig. */
export function resolveWorld(scene: Scene): World {
  const { book } = scene;
  const ends = new Map<
    End,
    { readonly must: readonly ResolvedCondition[]; readonly at: World['rules'][number]['at'] }
  >();
  for (const [end, rule] of book.ends) ends.set(end, { must: resolveConditions(scene, rule.must), at: rule.at });
  return {
    variables: [...book.states.values()].map((state) => resolveVariable(scene, state)),
    physics: book.physics.map(({ when, then, at }) => ({
      when: resolveConditions(scene, when),
      then: resolveConditions(scene, then),
      at,
    })),
    bundles: new Map([...book.bundles].map(([id, { conditions }]) => [id, resolveConditions(scene, conditions)])),
    rules: book.rules.map((rule): ResolvedRule => {
      const { id, label, hazard, origin, exceptEnergized, at } = rule;
      return {
        id,
        ...(label ? { label: wordsFor(scene, label) } : {}),
        when: resolveConditions(scene, rule.when),
        must: resolveConditions(scene, rule.must),
        unchanged: (rule.unchanged ?? []).map(({ value }) => value).filter((state) => book.states.has(state)),
        ...(hazard && book.hazards.has(hazard.value) ? { hazard: hazard.value } : {}),
        exceptEnergized,
        ...(origin ? { origin: wordsFor(scene, origin) } : {}),
        at,
      };
    }),
    ends,
  };
}

function resolveVariable(scene: Scene, state: StateVariable): ResolvedVariable {
  const { id, values, quantity, start, restore, safe, at } = state;
  const declared = new Set(values.map((value) => value.id.value));
  return {
    id,
    label: state.label ? wordsFor(scene, state.label) : plainWords(scene, id),
    values: [...declared],
    valueLabels: new Map(
      values.map(({ id: value, label }) => [
        value.value,
        label ? wordsFor(scene, label) : plainWords(scene, value.value),
      ]),
    ),
    ...(quantity ? { quantity: quantity.value } : {}),
    ...(start && declared.has(start.value) ? { start: start.value } : {}),
    restore,
    ...(safe && declared.has(safe.value) ? { safe: safe.value } : {}),
    movesWhen: resolveConditions(scene, state.movesWhen),
    at,
  };
}

/** What everybody writes as an answer, in the languages that the interface speaks. */
const everyday: Readonly<Record<string, Readonly<Record<string, string>>>> = { yes: { es: 'Sí' } };

/** An id as words: `low-idle` is `Low idle`, in every language; `yes` is said in its own. */
export function plainWords(scene: Scene, id: string): Words {
  const text = id.replaceAll(/[-_]/g, ' ');
  const words = text.slice(0, 1).toUpperCase() + text.slice(1);
  return Object.fromEntries(
    scene.book.settings.languages.map((language) => [language, everyday[id]?.[language] ?? words]),
  );
}

/** `Engine: Low idle`, `Oil temperature: at least 100 °F`: a condition in words. */
export function sayCondition(world: World, condition: ResolvedCondition, languages: readonly string[]): Words {
  const variable = world.variables.find(({ id }) => id === condition.state);
  const { test } = condition;
  const said = languages.map((language) => {
    const label = variable?.label[language] ?? condition.state;
    const of = (word: string): string => variable?.valueLabels.get(word)?.[language] ?? word;
    const what =
      test.kind === 'words'
        ? sayEither(test.words.map(of), language)
        : test.kind === 'limits'
          ? sayLimits(test.text, language)
          : '';
    return [language, what === '' ? label : `${label}: ${what}`];
  });
  return Object.fromEntries(said);
}
