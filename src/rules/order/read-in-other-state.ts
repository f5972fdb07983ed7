// A value whose label says how the machine stands when it is read, and a step that reads it while the machine stands otherwise.

import type { ResolvedProcedure, ResolvedStep, ResolvedVariable, World } from '../../model/resolved.js';
import type { Span } from '../../text/source.js';
import { numberLanguage } from '../prose/languages/languages.js';
import { type Context, type Finding, type Proof, rule } from '../rule.js';
import { alikeReadings } from './read-again-alike.js';

interface Facts {
  readonly step: string;
  readonly value: string;
  readonly label: string;
  readonly state: string;
  /** What the label says, and what the state may be instead; nothing where it is not known. */
  readonly said: readonly string[];
  readonly known: readonly string[];
}

export default rule({
  id: 'read-in-other-state',
  severity: 'warning',
  needs: 'proofs',
  *run(proofs, context) {
    const told = new Set<string>();
    const [first = 'en'] = context.book.settings.languages;
    for (const proof of proofs) {
      const { procedure } = proof.variant;
      // where the order is wrong, that is mended first; one reading is told of, for two that are exchanged are one slip
      if (told.has(procedure.id) || !proof.result.complete || proof.result.violations.length > 0) continue;
      // where a step between two readings is missing, that says it all
      if ([...alikeReadings(procedure, first)].length > 0) continue;
      const [finding] = findingsIn(proof, context);
      if (!finding) continue;
      told.add(procedure.id);
      yield finding;
    }
  },
  say: ({ step, value, label, state, said, known }: Facts) => ({
    message: `\`${step}\` reads \`${value}\`, “${label}”, and \`${state}\` ${
      known.length === 0 ? 'may be anything there' : `is ${known.map((one) => `\`${one}\``).join(' or ')} there`
    }`,
    help: `Read it where \`${state}\` is ${said.map((one) => `\`${one}\``).join(' or ')}: move the step, or read the value in the step that belongs there. If the label is wrong, mend that.`,
    note: 'The limits are for the machine as the label says: read otherwise, a good sensor fails or a bad one passes.',
  }),
});

function* findingsIn({ variant, result }: Proof, { resolved: { world }, book }: Context): Iterable<Finding<Facts>> {
  const { procedure } = variant;
  const [first = 'en'] = book.settings.languages;
  for (const step of procedure.steps) {
    const facts = result.facts.find(
      ({ place }) => place.step === step.id && place.calls.length === 0 && place.end === undefined,
    );
    if (!facts) continue;
    for (const value of procedure.values) {
      const label = value.label[first];
      if (!step.measure.includes(value.id) || value.derived || label === undefined) continue;
      for (const { variable, said } of statesIn(label, world, first)) {
        const own = setBy(step, variable.id);
        const known = own ?? facts.before.find(({ state }) => state === variable.id)?.values ?? [];
        const isOther = known.length > 0 && !known.some((one) => said.includes(one));
        const isSo = known.length > 0 && known.every((one) => said.includes(one));
        if (isSo || (!isOther && !isBroughtLater({ state: variable.id, said }, step, procedure))) continue;
        const data = { step: step.id, value: value.id, label, state: variable.id, said, known };
        const at = measureOf(step, value.source.id);
        yield { at, related: [{ message: 'the label', at: value.source.label.at }], data };
      }
    }
  }
}

interface Said {
  readonly variable: ResolvedVariable;
  readonly said: readonly string[];
}

/** The states that a label names right before one of their values: `header on the ground`, `header fully raised`. */
function statesIn(label: string, world: World, first: string): readonly Said[] {
  const words = wordsOf(label, first);
  return world.variables.flatMap((variable) => {
    const nouns = new Set(namesOf(variable.label[first], variable.id, first).flat());
    const said = variable.values.filter((value) =>
      namesOf(variable.valueLabels.get(value)?.[first], value, first).some((name) => follows(words, nouns, name)),
    );
    return said.length > 0 ? [{ variable, said }] : [];
  });
}

/** What a thing is called: by its label up to a comma, and in English by its id. */
function namesOf(label: string | undefined, id: string, first: string): readonly (readonly string[])[] {
  const texts = [...(label === undefined ? [] : [label.split(',')[0] ?? '']), ...(first.startsWith('en') ? [id] : [])];
  return texts.map((text) => wordsOf(text, first)).filter((words) => words.length > 0);
}

function wordsOf(text: string, first: string): readonly string[] {
  const { filling } = numberLanguage(first);
  return (text.toLowerCase().match(/\p{L}+/gu) ?? []).filter((word) => !filling.has(word));
}

/** Whether the words of a name stand behind one of the nouns, with one word between them at most: `fully`. */
function follows(words: readonly string[], nouns: ReadonlySet<string>, name: readonly string[]): boolean {
  return words.some(
    (word, i) =>
      nouns.has(word) && [i + 1, i + 2].some((start) => name.every((one, offset) => words[start + offset] === one)),
  );
}

function setBy({ sets }: ResolvedStep, state: string): readonly string[] | undefined {
  const test = sets.find((one) => one.state === state)?.test;
  return test?.kind === 'words' ? test.words : undefined;
}

/** Whether only steps behind this one set what the label says: then the reading was meant to come after them. */
function isBroughtLater(
  { state, said }: { readonly state: string; readonly said: readonly string[] },
  step: ResolvedStep,
  { steps }: ResolvedProcedure,
): boolean {
  const bringing = steps.filter((one) => setBy(one, state)?.some((value) => said.includes(value)));
  return bringing.length > 0 && bringing.every((one) => steps.indexOf(one) > steps.indexOf(step));
}

function measureOf({ source, at }: ResolvedStep, value: string): Span {
  return source.measure.find((one) => one.value === value)?.at ?? at;
}
