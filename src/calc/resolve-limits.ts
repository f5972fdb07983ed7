// Written limits to exact limits.
import type { LimitsExpr, Parsed } from './expression/ast.js';
import type { Limits } from './limits.js';

export interface ResolveOptions {
  /** Numbers in degC and degF are differences: the limits of a value that is the difference of two temperatures. */
  readonly temperature?: 'point' | 'difference';
}

/** The limits that a text means for one rig; `scope` gives the limits of each named parameter. */
export function resolveLimits(
  _limits: LimitsExpr,
  _scope: (path: string) => Limits | undefined,
  _options: ResolveOptions = {},
): Parsed<Limits> {
  throw new Error('Not ready');
}
