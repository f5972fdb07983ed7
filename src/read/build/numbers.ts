// Texts that are numbers, limits and expressions, read by the calculation core; its faults brought to their place.

import type { ExpressionFault, Parsed } from '../../calc/expression/ast.js';
import { parseEffect, parseExpression, parseLimits } from '../../calc/expression/parse.js';
import type { Fix } from '../../diagnostic/diagnostic.js';
import type { Agreement, NumberChoice, Parameter, WrittenExpr, WrittenLimits } from '../../model/numbers.js';
import type { Choice } from '../../model/text.js';
import { type SourceText, spanWithin } from '../../text/source.js';
import { entryWith } from '../schema-places.js';
import type { YamlNode, YamlScalar } from '../tree.js';
import { choiceOf } from './choice.js';
import { checkName } from './names.js';
import { childOf, entriesOf, isBlank, type Part, partOf } from './part.js';
import { filled, type Reading, reportGap } from './reading.js';
import { textBehind } from './texts.js';

/** Limits or a number, or a choice of them by rig. */
export function numberChoice(reading: Reading, node: YamlNode | undefined): NumberChoice | undefined {
  return choiceOf(node, (text) => limitsOf(reading, text));
}

/** The same, behind a key. */
export function numbersBehind(reading: Reading, part: Part | undefined, key: string): NumberChoice | undefined {
  return numberChoice(reading, childOf(reading, part, key)?.node);
}

/** Limits without a choice. */
export function limitsOf(reading: Reading, source: SourceText): WrittenLimits | undefined {
  const expr = accept(reading, source, { code: 'bad-limits', parsed: parseLimits(source.value) });
  return expr && { expr, source };
}

/** The limits behind a key, where no choice may stand. */
export function limitsBehind(reading: Reading, part: Part | undefined, key: string): WrittenLimits | undefined {
  const text = scalarText(childOf(reading, part, key)?.node);
  return text && limitsOf(reading, text);
}

/** The expression behind a key. */
export function expressionBehind(reading: Reading, part: Part | undefined, key: string): WrittenExpr | undefined {
  const source = scalarText(childOf(reading, part, key)?.node);
  if (!source) return undefined;
  const expr = accept(reading, source, { code: 'bad-expression', parsed: parseExpression(source.value) });
  return expr && { expr, source };
}

/** What an adjuster moves, or a choice of that by rig. */
export function effectChoice(reading: Reading, node: YamlNode): Choice<WrittenExpr> | undefined {
  return choiceOf(node, (source) => {
    const expr = accept(reading, source, { code: 'bad-effect', parsed: parseEffect(source.value) });
    return expr && { expr, source };
  });
}

function scalarText(node: YamlNode | undefined): SourceText | undefined {
  return node?.kind === 'scalar' && !isBlank(node) && node.text.value !== '' ? node.text : undefined;
}

function accept<T>(
  reading: Reading,
  source: SourceText,
  read: { readonly code: string; readonly parsed: Parsed<T> },
): T | undefined {
  if (read.parsed.ok) return read.parsed.value;
  const { fault } = read.parsed;
  const fixes = fixesOf(source, fault);
  const [rewrite] = fault.rewrites ?? [];
  const help = fault.help ?? (rewrite === undefined ? undefined : `Write \`${rewrite}\`.`);
  const at = spanWithin(source, fault.start, fault.end);
  reportGap(reading, {
    code: read.code,
    message: fault.message,
    at: at.end > at.start ? at : source.at,
    ...(help === undefined ? {} : { help: withRewrite(help, rewrite) }),
    ...(fixes.length > 0 ? { fixes } : {}),
  });
  return undefined;
}

function withRewrite(help: string, rewrite: string | undefined): string {
  return rewrite === undefined || help.includes(rewrite) ? help : `${help} Here: \`${rewrite}\`.`;
}

// several rewrites are several readings of what was meant: none of them is safe, nor is one that is a guess at a unit
function fixesOf(source: SourceText, fault: ExpressionFault): readonly Fix[] {
  const rewrites = fault.rewrites ?? [];
  return rewrites.map((text) => ({
    title: `Write \`${text}\``,
    edits: [{ at: source.at, text }],
    safe: rewrites.length === 1 && keepsAll(source.value, text),
  }));
}

/** Whether every number and every word of a text stands in the other as well, in the same order. */
function keepsAll(text: string, other: string): boolean {
  const parts = (of: string): readonly string[] => of.match(/\d+(?:[.,]\d+)*|\p{L}+|[%°]/gu) ?? [];
  const numbers = (of: string): string =>
    parts(of)
      .filter((part) => /\d/.test(part))
      .join(' ');
  let place = 0;
  const others = parts(other);
  const isThere = parts(text).every((part) => {
    place = others.indexOf(part, place) + 1;
    return place > 0;
  });
  return isThere && numbers(text) === numbers(other);
}

/** The parameters of a machine or header, by name. */
export function parametersBehind(reading: Reading, part: Part | undefined): ReadonlyMap<string, Parameter> {
  const parameters = new Map<string, Parameter>();
  for (const entry of entriesOf(reading, childOf(reading, part, 'parameters'))) {
    checkName(reading, entry.key);
    const parameter = parameterOf(reading, entry.key, entry);
    if (parameter) parameters.set(parameter.id, parameter);
  }
  return parameters;
}

const parameterKeys = ['value', 'label', 'source', 'waive'];

function parameterOf(reading: Reading, key: YamlScalar, part: Part): Parameter | undefined {
  const { node } = part;
  const [id, idAt] = [key.text.value, key.at];
  const isMap = node.kind === 'map' && parameterKeys.some((key) => entryWith(node, key) !== undefined);
  const value = isMap ? numbersBehind(reading, part, 'value') : numberChoice(reading, node);
  if (!value) return undefined;
  if (!isMap) return { id, idAt, value, at: node.at };
  const label = textBehind(reading, part, 'label');
  const origin = textBehind(reading, part, 'source', 'may-stay');
  return filled({ id, idAt, value, label, origin, at: node.at });
}

/** The numbers of a machine or header that must fit each other. */
export function agreementsBehind(reading: Reading, part: Part | undefined): readonly Agreement[] {
  const list = childOf(reading, part, 'agree')?.node;
  return (list?.kind === 'list' ? list.items : []).flatMap((node) => {
    const entry = partOf(node);
    const that = expressionBehind(reading, entry, 'that');
    const equals = equalsIn(reading, entry);
    const within = expressionBehind(reading, entry, 'within');
    return that && equals ? [filled({ that, ...equals, within, at: node.at })] : [];
  });
}

/** What a number must equal: limits where both ends are given, else an expression. */
function equalsIn(reading: Reading, entry: Part): Pick<Agreement, 'equals' | 'limits'> | undefined {
  const text = scalarText(childOf(reading, entry, 'equals')?.node);
  const parsed = text && parseLimits(text.value);
  if (text && parsed?.ok && parsed.value.kind !== 'single') return { limits: { expr: parsed.value, source: text } };
  const equals = expressionBehind(reading, entry, 'equals');
  return equals && { equals };
}
