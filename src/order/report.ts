// Turns what the search found into violations: one for each fault, with the facts that are missing and the path.

import type { Graph } from './graph.js';
import { exists } from './moment.js';
import type { Claim } from './question.js';
import { type Question, variablesOf } from './question.js';
import type { MissingFact, Violation, ViolationKind } from './result.js';
import type { Hit } from './search.js';
import type { Slicer } from './slices.js';
import { findLoss, type Replay, replay, valuesAt } from './trace.js';
import { asStateSet, atomsOf, maskOf } from './variables.js';

type Claimed = Hit & { readonly question: Question & { readonly claim: Claim } };

// Kinds of which all that is missing at one point is one fault.
const joined: ReadonlySet<ViolationKind> = new Set<ViolationKind>([
  'need-not-met',
  'moves-when',
  'rule-broken',
  'throughout-broken',
  'end-must-not-met',
  'not-restored',
  'requires-not-met-at-run',
  'instrument-needs',
  'back-into-step',
]);

/** All violations of some hits. */
export function reportHits(graph: Graph, slicer: Slicer, hits: readonly Hit[]): readonly Violation[] {
  const claimed = hits.filter((hit): hit is Claimed => hit.question.claim !== undefined);
  const groups = new Map<string, Claimed[]>();
  for (const hit of claimed) {
    const key = groupKey(graph, hit);
    const group = groups.get(key);
    if (group) group.push(hit);
    else groups.set(key, [hit]);
  }
  return withoutRepeats([...groups.values()].flatMap((group) => reportGroup(graph, slicer, group)));
}

function groupKey(graph: Graph, { question }: Claimed): string {
  const { kind, rule, callee, value } = question.claim;
  const node = graph.nodes[question.node];
  if (!joined.has(kind)) return question.id;
  return [
    kind,
    rule?.id,
    callee,
    value,
    node?.frame?.id,
    node?.index,
    node?.end,
    question.claim.phase === 'before',
  ].join('|');
}

// The shortest path stands for a group; what is not missing on it makes a violation of its own.
function reportGroup(graph: Graph, slicer: Slicer, group: readonly Claimed[]): readonly Violation[] {
  const found: Violation[] = [];
  let rest = [...group].sort((a, b) => a.path.length - b.path.length);
  while (rest.length > 0) {
    const [first] = rest;
    if (!first) break;
    const slice = slicer.sliceFor(rest.flatMap(({ question }) => variablesOf(question)));
    const replayed = replay(graph, slice, first);
    const here = rest.filter((hit) => hit === first || isMissingHere(replayed, first, hit));
    found.push(reportOne(graph, replayed, first, here));
    rest = rest.filter((hit) => !here.includes(hit));
  }
  return found;
}

function isMissingHere({ slice, moment }: Replay, first: Claimed, { question }: Claimed): boolean {
  const { test } = question;
  if (first.question.claim.rule !== question.claim.rule) return false;
  return test.kind === 'exists' && exists(slice, test.literals, moment.sets);
}

function reportOne(graph: Graph, replayed: Replay, first: Claimed, group: readonly Claimed[]): Violation {
  const { claim } = first.question;
  const node = graph.nodes[first.question.node];
  const leading =
    replayed.trace.findLast(({ place }) => place.end === undefined)?.place ?? replayed.trace.at(-1)?.place;
  const place = node?.kind === 'final' ? leading : node?.place;
  const missing = distinctFacts(group.flatMap((hit) => missingOf(replayed, hit)));
  const when = claim.when ?? [];
  return {
    kind: claim.kind,
    ...(place ? { place } : {}),
    at: node?.kind === 'final' && pointsAtStep(claim.kind) && place ? place.at : claim.at,
    phase: claim.phase,
    ...(node?.end ? { end: node.end } : {}),
    missing,
    ...(claim.rule ? { rule: claim.rule } : {}),
    triggeredBy: when.map(({ variable, atoms }) => {
      const mask = valuesAt(replayed, variable, when) || maskOf(variable, atoms);
      return asStateSet(replayed.space, variable, mask);
    }),
    ...(claim.changed ? { changed: claim.changed } : {}),
    ...(claim.value === undefined ? {} : { value: claim.value }),
    ...(claim.input === undefined ? {} : { input: claim.input }),
    ...(claim.reading === undefined ? {} : { reading: claim.reading }),
    ...(claim.callee === undefined ? {} : { callee: claim.callee }),
    cycle: [],
    trace: replayed.trace,
  };
}

// What is wrong at an end is mended in the step that leads there, but for what the author wrote of the end itself.
function pointsAtStep(kind: ViolationKind): boolean {
  return kind === 'rule-broken' || kind === 'end-must-not-met' || kind === 'not-restored';
}

function missingOf(replayed: Replay, { question }: Claimed): readonly MissingFact[] {
  const { wanted, when = [], kind } = question.claim;
  if (!wanted) return [];
  const { variable } = wanted;
  const literals = question.test.kind === 'exists' ? question.test.literals : when;
  const others = literals.filter((literal) => literal.variable !== variable || when.includes(literal));
  const mask = valuesAt(replayed, variable, kind === 'not-restored' ? literals : others);
  const lostAtoms = kind === 'not-restored' ? failingComplement(question) : atomsOf(variable, wanted.mask);
  return [
    {
      ...asStateSet(replayed.space, variable, mask),
      wanted: wanted.texts,
      at: wanted.at,
      ...(wanted.bundle === undefined ? {} : { bundle: wanted.bundle }),
      lost: findLoss(replayed, variable, lostAtoms),
    },
  ];
}

// The atoms that would do: all but those that the question looks for.
function failingComplement({ test }: Question): bigint {
  return test.kind === 'exists' ? ~(test.literals[0]?.atoms ?? 0n) : -1n;
}

function distinctFacts(facts: readonly MissingFact[]): readonly MissingFact[] {
  const byKey = new Map(facts.map((fact) => [`${fact.state} ${fact.person ?? ''} ${fact.wanted.join(' ')}`, fact]));
  return [...byKey.values()];
}

// A need that a safety rule misses at the same step is one fault: the rule tells it.
function withoutRepeats(violations: readonly Violation[]): readonly Violation[] {
  const told = new Set(violations.filter(({ kind }) => kind === 'rule-broken').flatMap((each) => factKeys(each)));
  return violations.flatMap((violation) => {
    if (violation.kind !== 'need-not-met') return [violation];
    const keys = factKeys(violation);
    const missing = violation.missing.filter((_, i) => !told.has(keys[i] ?? ''));
    return missing.length > 0 ? [{ ...violation, missing }] : [];
  });
}

function factKeys({ place, missing }: Violation): readonly string[] {
  const step = `${place?.calls.join(' ')} ${place?.end ?? ''} ${place?.step ?? ''}`;
  return missing.map(({ state, wanted }) => `${step}|${state}|${wanted.join(' ')}`);
}
