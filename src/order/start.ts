// What a variant may start from: all that `requires`, `start` and physics allow.

import type { World } from '../model/resolved.js';
import type { Frames } from './frames.js';
import type { Violation } from './result.js';
import type { Slicer } from './slices.js';
import { absent, asStateSet, describeMask, fullMask, maskOfWords, readCondition, type Variable } from './variables.js';

/** The values that each variable may start with, by its index; physics apart. */
export function findStart({ space, main }: Frames, world: World): readonly bigint[] {
  const required = new Map<Variable, bigint>();
  for (const { condition } of main.procedure.requires) {
    for (let person = 1; person <= (condition.state === 'person' ? space.people : 1); person += 1) {
      const wanted = readCondition(space, condition, person);
      if (wanted) required.set(wanted.variable, (required.get(wanted.variable) ?? -1n) & wanted.mask);
    }
  }
  const assumed = new Map(world.variables.map(({ id, start }) => [id, start]));
  return space.variables.map((variable) => {
    if (variable.kind === 'reading') return absent;
    const said = required.get(variable);
    const start = said === undefined ? assumed.get(variable.id) : undefined;
    const mask = start === undefined ? 0n : maskOfWords(variable, [start]);
    return (mask === 0n ? fullMask(variable) : mask) & (said ?? -1n);
  });
}

/** One violation for each group of states that leave nothing to start from. */
export function startViolations(frames: Frames, slicer: Slicer, world: World): readonly Violation[] {
  const starts = findStart(frames, world);
  const { space, main } = frames;
  return slicer.impossible.map((variables) => {
    const ids = new Set(variables.map(({ id }) => id));
    const required = main.procedure.requires.filter(({ condition }) => ids.has(condition.state));
    const known = variables.filter((variable) => (starts[variable.index] ?? 0n) !== fullMask(variable));
    return {
      kind: 'start-impossible',
      at: required.at(-1)?.at ?? known[0]?.source?.at ?? main.procedure.source.at,
      phase: 'start',
      missing: required.flatMap(({ condition }) => {
        const wanted = readCondition(space, condition, 1);
        if (!wanted) return [];
        const texts = describeMask(wanted.variable, wanted.mask);
        return [
          {
            ...asStateSet(space, wanted.variable, 0n),
            wanted: texts,
            at: condition.at,
            lost: { kind: 'start' } as const,
          },
        ];
      }),
      triggeredBy: known.map((variable) => asStateSet(space, variable, starts[variable.index] ?? 0n)),
      cycle: [],
      trace: [],
    };
  });
}
