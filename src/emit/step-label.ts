// What a step is called: the same number on the phone, on the card, on paper and on the telephone.

import type { End, ResolvedProcedure, ResolvedStep, Variant } from '../model/resolved.js';

/** `6`, or `4.1` for the first step of a procedure that step 4 runs, or `E1` for one that an end runs. */
export function stepLabel(step: Pick<ResolvedStep, 'number'>, prefix = ''): string {
  if (prefix === '') return String(step.number);
  return /\d$/.test(prefix) ? `${prefix}.${step.number}` : `${prefix}${step.number}`;
}

/** The procedures that ends run, each once, with the ends that run it. */
export function endProcedures(
  variant: Variant,
): readonly { readonly procedure: ResolvedProcedure; readonly ends: readonly End[]; readonly prefix: string }[] {
  const found: { procedure: ResolvedProcedure; ends: End[]; prefix: string }[] = [];
  for (const end of ['stop', 'call-service'] as const) {
    const procedure = variant.ends.get(end);
    if (!procedure) continue;
    const same = found.find((one) => one.procedure.id === procedure.id);
    if (same) same.ends.push(end);
    else found.push({ procedure, ends: [end], prefix: found.length === 0 ? 'E' : 'F' });
  }
  return found;
}
