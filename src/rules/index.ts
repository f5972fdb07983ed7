// The plain list of rules. Their order has no meaning; diagnostics are sorted by place.

import type { AnyRule } from './rule.js';

export const rules: readonly AnyRule[] = [];
