// Small worlds and procedures from a terse notation, worked out by hand as far as the order proof looks.
//
//   states:   `engine: 'off idle'`, `stop: 'stowed placed start=stowed restore safe=placed'`, `oil: 'quantity'`,
//             `header: 'down up moves-when engine=idle'`
//   tests:    `engine=off`, `header=down|up`, `oil>=100`, `oil<=80`, `oil=?` (unknown); several are joined by `,`
//   physics:  `engine=off -> motion=coasting|stopped, oil=?`
//   rules:    `under: person=under must engine=off unchanged header hazard crush except-energized`
//   steps:    `lower | at cab | sets header=down | measure on_ground | outside lower x3 else stop means a=b | then done`

import type { Limits } from '../../src/calc/limits.js';
import { rational, zero } from '../../src/calc/rational.js';
import { noUnit } from '../../src/calc/unit.js';
import type { ReadingOutcome } from '../../src/model/procedure.js';
import type {
  End,
  ResolvedAdjuster,
  ResolvedBranch,
  ResolvedCondition,
  ResolvedInstrument,
  ResolvedProcedure,
  ResolvedRule,
  ResolvedStep,
  ResolvedValue,
  ResolvedVariable,
  ResolvedWorksheet,
  Variant,
  World,
} from '../../src/model/resolved.js';
import type { Span } from '../../src/text/source.js';

/** A place in a file that does not exist; `text` is found again in `describeSpan`. */
export function spanOf(text: string): Span {
  const known = spans.get(text);
  if (known) return known;
  const span = { file: 'test', start: spans.size * 10, end: spans.size * 10 + 5 };
  spans.set(text, span);
  return span;
}

const spans = new Map<string, Span>();

/** What a place made by `spanOf` was made for. */
export function describeSpan(span: Span): string {
  for (const [text, each] of spans) if (each.start === span.start) return text;
  return '';
}

/** `engine=off, header=down|up`. */
export function conditions(text: string, where = text): readonly ResolvedCondition[] {
  return text
    .split(',')
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .map((part) => condition(part, where));
}

function condition(text: string, where: string): ResolvedCondition {
  const [, state = '', sign = '=', rest = ''] = /^([\w-]+)(<=|>=|=)(.*)$/.exec(text) ?? [];
  const at = spanOf(`${where}: ${text}`);
  if (sign === '=') {
    const words = rest.split('|');
    return { state, test: rest === '?' ? { kind: 'unknown' } : { kind: 'words', words }, at };
  }
  const end = rational(BigInt(rest));
  const limits: Limits = { unit: noUnit, resolution: zero, ...(sign === '>=' ? { low: end } : { high: end }) };
  return { state, test: { kind: 'limits', limits, text: `${sign === '>=' ? 'at least' : 'at most'} ${rest}` }, at };
}

export interface WorldNotation {
  readonly states: Readonly<Record<string, string>>;
  readonly physics?: readonly string[];
  readonly rules?: readonly string[];
  readonly ends?: Readonly<Partial<Record<End, string>>>;
}

/** A world from its notation. */
export function makeWorld({ states, physics = [], rules = [], ends = {} }: WorldNotation): World {
  return {
    variables: Object.entries(states).map(([id, text]) => variable(id, text)),
    physics: physics.map((text) => {
      const [when = '', then = ''] = text.split('->');
      return { when: conditions(when, text), then: conditions(then, text), at: spanOf(`physics ${text}`) };
    }),
    bundles: new Map(),
    rules: rules.map(rule),
    ends: new Map(
      Object.entries(ends).map(([end, must]) => [
        end as End,
        { must: conditions(must, `ends ${end}`), at: spanOf(`ends ${end}`) },
      ]),
    ),
  };
}

function variable(id: string, text: string): ResolvedVariable {
  const [words = '', moves = ''] = text.split('moves-when');
  const parts = words.split(' ').filter((part) => part !== '');
  const option = (name: string): string | undefined => parts.find((part) => part.startsWith(`${name}=`))?.split('=')[1];
  const [start, safe] = [option('start'), option('safe')];
  const quantity = parts.includes('quantity');
  return {
    id,
    label: {},
    values: quantity ? [] : parts.filter((part) => part !== 'restore' && !part.includes('=')),
    valueLabels: new Map(),
    ...(quantity ? { quantity: 'temperature' } : {}),
    ...(start === undefined ? {} : { start }),
    restore: parts.includes('restore'),
    ...(safe === undefined ? {} : { safe }),
    movesWhen: conditions(moves, `moves-when ${id}`),
    at: spanOf(`state ${id}`),
  };
}

function rule(text: string): ResolvedRule {
  const [id = '', rest = ''] = text.split(/: ?/);
  const parts = ` ${rest}`.split(/ (must|unchanged|hazard|except-energized)\b/).map((part) => part.trim());
  const after = (word: string): string => {
    const place = parts.indexOf(word);
    return place < 0 ? '' : (parts[place + 1] ?? '');
  };
  const hazard = after('hazard');
  return {
    id,
    when: conditions(parts[0] ?? '', `rule ${id} when`),
    must: conditions(after('must'), `rule ${id} must`),
    unchanged: after('unchanged')
      .split(' ')
      .filter((part) => part !== ''),
    ...(hazard === '' ? {} : { hazard }),
    exceptEnergized: parts.includes('except-energized'),
    at: spanOf(`rule ${id}`),
  };
}

export interface ProcedureNotation {
  /** `engine=idle; auto=off throughout`. */
  readonly requires?: string;
  /** `limits`, `low`, `high`, `none`; `band`; `three-zone`; `at PLACE`; `needs electrics=live`; `hand`; `from a b`. */
  readonly values?: Readonly<Record<string, string>>;
  /** Values moved; `watch VALUE`. */
  readonly adjusters?: Readonly<Record<string, string>>;
  /** `limits` or `none`; `at PLACE`. */
  readonly worksheets?: Readonly<Record<string, string>>;
  readonly steps: readonly string[];
  readonly anyOrder?: readonly string[];
  readonly leaves?: string;
  readonly leavesAt?: Readonly<Partial<Record<End, string>>>;
  readonly people?: number;
  /** Procedures by id, for `run`. */
  readonly runs?: readonly ResolvedProcedure[];
}

/** A procedure from its notation. */
export function makeProcedure(id: string, notation: ProcedureNotation): ResolvedProcedure {
  const leaves = { ...(notation.leaves === undefined ? {} : { done: notation.leaves }), ...notation.leavesAt };
  const made = {
    source: { id, at: spanOf(`procedure ${id}`) },
    id,
    people: notation.people ?? 1,
    hazards: [],
    requires: (notation.requires ?? '')
      .split(';')
      .filter((part) => part.trim() !== '')
      .flatMap((part) => {
        const throughout = part.includes('throughout');
        return conditions(part.replace('throughout', ''), `${id} requires`).map((each) => {
          return { condition: each, words: {}, throughout, at: each.at };
        });
      }),
    values: Object.entries(notation.values ?? {}).map(([name, text]) => value(name, text)),
    adjusters: Object.entries(notation.adjusters ?? {}).map(([name, text]) => adjuster(name, text)),
    worksheets: Object.entries(notation.worksheets ?? {}).map(([name, text]) => worksheet(name, text)),
    steps: notation.steps.map((text, index) => step(text, index, `${id}`, notation.runs ?? [])),
    anyOrder: (notation.anyOrder ?? []).map((group) => group.split(' ')),
    leaves: new Map(Object.entries(leaves).map(([end, text]) => [end as End, conditions(text, `${id} leaves ${end}`)])),
  };
  return made as unknown as ResolvedProcedure;
}

const someLimits: Limits = { low: zero, high: rational(1n), unit: noUnit, resolution: zero };

function limitsFrom(words: readonly string[]): Limits | undefined {
  if (words.includes('limits')) return someLimits;
  if (words.includes('low')) return { low: zero, unit: noUnit, resolution: zero };
  if (words.includes('high')) return { high: rational(1n), unit: noUnit, resolution: zero };
  return undefined;
}

function value(id: string, text: string): ResolvedValue {
  const [head = '', inputs] = text.split(' from ');
  const words = head.split(' ');
  const limits = limitsFrom(words);
  const place = words.includes('at') ? words[words.indexOf('at') + 1] : undefined;
  const needs = words.includes('needs') ? (words[words.indexOf('needs') + 1] ?? '') : '';
  const read = place !== undefined || words.includes('hand') || needs !== '';
  const instrument = { id: 'meter', builtIn: !words.includes('hand'), source: {} } as unknown as ResolvedInstrument;
  const made = {
    source: { idAt: spanOf(`value ${id}`) },
    id,
    ...(limits ? { tolerance: limits, acceptance: limits } : {}),
    ...(words.includes('band') ? { inside: someLimits } : {}),
    ...(read ? { instrument } : {}),
    ...(place === undefined ? {} : { readAt: place }),
    needs: conditions(needs, `needs of ${id}`),
    decision: words.includes('three-zone') ? 'three-zone' : 'simple',
    ...(inputs === undefined ? {} : { derived: { inputs: inputs.split(' ') } }),
  };
  return made as unknown as ResolvedValue;
}

function adjuster(id: string, text: string): ResolvedAdjuster {
  const [moved = '', watch] = text.split(' watch ');
  const moves = new Map(moved.split(' ').map((each) => [each, { low: zero, high: zero }]));
  return { id, moves, ...(watch === undefined ? {} : { watch }) } as unknown as ResolvedAdjuster;
}

function worksheet(id: string, text: string): ResolvedWorksheet {
  const words = text.split(' ');
  const limits = limitsFrom(words);
  const place = words.includes('at') ? words[words.indexOf('at') + 1] : undefined;
  const instrument =
    place === undefined ? undefined : { id: 'scale', builtIn: true, source: { readAt: { value: place } } };
  return {
    id,
    source: { idAt: spanOf(`worksheet ${id}`), columns: [] },
    columns: instrument ? [{ id: 'column', instrument }] : [],
    results: [{ id: 'worst', ...(limits ? { limits } : {}) }],
  } as unknown as ResolvedWorksheet;
}

function step(text: string, index: number, procedure: string, runs: readonly ResolvedProcedure[]): ResolvedStep {
  // ` | ` parts a step, `|` joins the words of a list
  const [id = '', ...parts] = text.split(' | ').map((part) => part.trim());
  const at = spanOf(`${procedure} ${id}`);
  const found = (key: string): string | undefined =>
    parts
      .find((part) => part === key || part.startsWith(`${key} `))
      ?.slice(key.length)
      .trim();
  const list = (key: string): readonly string[] => (found(key) ?? '').split(' ').filter((part) => part !== '');
  const where = `${procedure} ${id}`;
  const read = (key: string): ResolvedBranch | undefined => {
    const branch = found(key);
    return branch === undefined ? undefined : makeBranch(branch, `${where} ${key}`);
  };
  const outcomes: readonly ReadingOutcome[] = ['outside', 'low', 'high', 'unsure', 'fault'];
  const callee = found('run');
  const run = callee === undefined ? undefined : runs.find((each) => each.id === callee);
  if (callee !== undefined && !run) throw new Error(`No procedure ${callee}`);
  const [otherwise, then, place] = [read('otherwise'), read('then'), found('at')];
  return {
    source: {},
    id,
    number: index + 1,
    hazards: list('hazard'),
    skill: 'operator',
    by: Number(found('by') ?? 1),
    ...(place === undefined ? {} : { place }),
    needs: conditions(found('needs') ?? '', `${where} needs`),
    sets: conditions(found('sets') ?? '', `${where} sets`),
    measure: list('measure'),
    adjust: list('adjust'),
    stale: list('stale'),
    ...(run ? { run } : {}),
    ...(found('energized') === undefined ? {} : { energized: { why: {} } }),
    ...(otherwise ? { otherwise } : {}),
    when: new Map(
      outcomes.flatMap((outcome) => {
        const branch = read(outcome);
        return branch ? [[outcome, branch] as const] : [];
      }),
    ),
    answers: parts
      .filter((part) => part.startsWith('answer '))
      .map((part) => {
        const [, key = '', ...rest] = part.split(' ');
        return { key, label: {}, branch: makeBranch(rest.join(' '), `${where} answer ${key}`) };
      }),
    ...(then ? { then } : {}),
    at,
  } as unknown as ResolvedStep;
}

// `lower x3 means a=b else stop`: `else` begins the branch that follows when the count is used up.
function makeBranch(text: string, where: string): ResolvedBranch {
  const [first = '', ...others] = text.split(' else ');
  const [head = '', means = ''] = first.split(' means ');
  const [go = '', count] = head.trim().split(' x');
  return {
    go,
    means: conditions(means, where),
    ...(count === undefined ? {} : { atMost: Number(count) }),
    ...(others.length > 0 ? { otherwise: makeBranch(others.join(' else '), `${where} else`) } : {}),
    at: spanOf(where),
  };
}

/** A variant of a procedure. */
export function makeVariant(
  procedure: ResolvedProcedure,
  ends: Readonly<Partial<Record<End, ResolvedProcedure>>> = {},
): Variant {
  return {
    id: procedure.id,
    procedure,
    rigs: [],
    ends: new Map(Object.entries(ends).map(([end, each]) => [end as End, each])),
    hash: '',
  };
}
