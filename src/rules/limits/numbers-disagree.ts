// Parameters of a machine or header that must fit each other, and do not.

import { formatQuantity } from '../../calc/display.js';
import type { Enclosure } from '../../calc/enclosure.js';
import { rangeOf } from '../../calc/expression/range.js';
import { enclosureOf, type Limits } from '../../calc/limits.js';
import {
  absolute,
  add,
  compare,
  larger,
  multiply,
  type Rational,
  rational,
  subtract,
  zero,
} from '../../calc/rational.js';
import { resolveLimits } from '../../calc/resolve-limits.js';
import type { Agreement, Parameter, WrittenExpr } from '../../model/numbers.js';
import { leavesOf } from '../../model/walk.js';
import { rule } from '../rule.js';
import { namesOf } from '../unused/used.js';

interface Facts {
  readonly that: string;
  readonly equals: string;
  readonly is: string;
  readonly shouldBe: string;
  readonly within: string | undefined;
}

/** Combinations of choices that one agreement is held against, at the most. */
const mostCombinations = 256;

export default rule({
  id: 'numbers-disagree',
  severity: 'error',
  needs: 'book',
  *run(book) {
    for (const owner of [...book.machines.values(), ...book.headers.values()]) {
      for (const agreement of owner.agree) {
        for (const scope of scopesOf(agreement, owner.parameters)) {
          const facts = disagreement(agreement, scope);
          if (!facts) continue;
          const related = namesOf(agreement.that)
            .flatMap((name) => owner.parameters.get(bare(name)) ?? [])
            .map(({ id, value }) => ({ message: `\`${id}\` is here`, at: value.at }));
          yield { at: agreement.at, related, data: facts };
          break;
        }
      }
    }
  },
  say: ({ that, equals, is, shouldBe, within }: Facts) => ({
    message: `\`${that}\` is ${is}, and \`${equals}\` comes to ${shouldBe}${within === undefined ? '' : `: further apart than ${within}`}`,
    help: 'Mend whichever is the slip, or `within` if they may be further apart.',
  }),
});

function bare(path: string): string {
  return path.slice(path.indexOf('.') + 1);
}

type Scope = ReadonlyMap<string, Limits>;

/** Every combination of the choices that the named parameters have. */
function scopesOf(agreement: Agreement, parameters: ReadonlyMap<string, Parameter>): readonly Scope[] {
  let scopes: Scope[] = [new Map()];
  for (const name of new Set([agreement.that, agreement.equals, agreement.within].flatMap(namesOf))) {
    const entries = limitsOf(bare(name), parameters, new Set());
    scopes = scopes
      .flatMap((scope) => entries.map((limits) => new Map([...scope, [name, limits]])))
      .slice(0, mostCombinations);
  }
  return scopes;
}

function limitsOf(
  id: string,
  parameters: ReadonlyMap<string, Parameter>,
  open: ReadonlySet<string>,
): readonly Limits[] {
  const parameter = parameters.get(id);
  if (!parameter || open.has(id)) return [];
  const inside = new Set([...open, id]);
  return [...leavesOf(parameter.value)].flatMap(({ expr }) => {
    const resolved = resolveLimits(expr, (path) => limitsOf(bare(path), parameters, inside)[0]);
    return resolved.ok ? [resolved.value] : [];
  });
}

function worth(written: WrittenExpr | undefined, scope: Scope): Enclosure | undefined {
  if (!written) return undefined;
  const range = rangeOf(written.expr, (path) => {
    const limits = scope.get(path);
    return limits && enclosureOf(limits);
  });
  return range.ok ? range.value.outer : undefined;
}

/** What does not fit, where no values within the ranges of both sides come close enough. */
function disagreement(agreement: Agreement, scope: Scope): Facts | undefined {
  const that = worth(agreement.that, scope);
  const equals = worth(agreement.equals, scope);
  if (!that || !equals) return undefined;
  const gap = larger(zero, larger(subtract(that.low, equals.high), subtract(equals.low, that.high)));
  if (compare(gap, allowed(agreement, equals, scope)) <= 0) return undefined;
  const sample = namesOf(agreement.that).flatMap((name) => scope.get(name) ?? [])[0];
  const show = (value: Rational): string => {
    if (!sample) return String(value.num);
    const fine = multiply(sample.resolution, rational(1, 100));
    return formatQuantity(value, {
      unit: sample.unit,
      resolution: compare(gap, sample.resolution) < 0 ? fine : sample.resolution,
    });
  };
  return {
    that: agreement.that.source.value,
    equals: agreement.equals.source.value,
    is: show(middle(that)),
    shouldBe: show(middle(equals)),
    within: agreement.within?.source.value,
  };
}

function middle({ low, high }: Enclosure): Rational {
  return multiply(add(low, high), rational(1, 2));
}

/** How far apart they may be: a share is of what it should equal. */
function allowed({ within }: Agreement, equals: Enclosure, scope: Scope): Rational {
  const limit = worth(within, scope)?.high;
  if (!within || !limit) return zero;
  return within.source.value.includes('%') ? multiply(limit, absolute(middle(equals))) : limit;
}
