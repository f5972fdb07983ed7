// Ends as questions: what is left behind, put back, wanted there, and how readings stand.

import type { End } from '../model/resolved.js';
import { askRules } from './ask-rules.js';
import { type Asking, askWanted, type Spot } from './asking.js';
import type { Node } from './graph.js';
import {
  changedAtoms,
  describeMask,
  failed,
  fullMask,
  maskOfWords,
  personState,
  readCondition,
  stale,
} from './variables.js';

/** All that is asked of an end. */
export function askFinal(asking: Asking, node: Node): void {
  const spot: Spot = { node, point: { kind: 'before' } };
  const end: End = node.end ?? 'done';
  askRules(asking, spot, 'end');
  const { space, main } = asking.graph.frames;
  const leaves = main.procedure.leaves.get(end) ?? [];
  for (const condition of leaves) {
    const wanted = readCondition(space, condition, 1);
    if (wanted) askWanted(asking, spot, wanted, { kind: 'leaves-not-met', at: condition.at, phase: 'end' });
  }
  // What a branch says is seen on the way to `done` comes after the last act, where it was asked before.
  for (const { condition, throughout } of end === 'done' ? main.procedure.requires : []) {
    const wanted = throughout ? readCondition(space, condition, 1) : undefined;
    if (wanted) askWanted(asking, spot, wanted, { kind: 'throughout-broken', at: condition.at, phase: 'end' });
  }
  askEndMust(asking, spot, end);
  askRestored(asking, spot, end, new Set(leaves.map(({ state }) => state)));
  if (end === 'done') askReadings(asking, spot);
}

function askEndMust(asking: Asking, spot: Spot, end: End): void {
  const rule = asking.world.ends.get(end);
  for (const condition of end === 'done' ? [] : (rule?.must ?? [])) {
    const persons = condition.state === personState ? asking.graph.frames.space.people : 1;
    for (let person = 1; person <= persons; person += 1) {
      const wanted = readCondition(asking.graph.frames.space, condition, person);
      if (wanted) askWanted(asking, spot, wanted, { kind: 'end-must-not-met', at: condition.at, phase: 'end' });
    }
  }
}

function askRestored(asking: Asking, { node, point }: Spot, end: End, named: ReadonlySet<string>): void {
  const procedure = asking.graph.frames.main.procedure;
  for (const variable of asking.graph.frames.space.variables) {
    if (!variable.paired || !variable.source || named.has(variable.id)) continue;
    const safe = end !== 'done' && variable.source.safe !== undefined ? [variable.source.safe] : [];
    const mask = maskOfWords(variable, safe);
    const id = `restore ${variable.index} ${end}`;
    const texts = ['as it was at the start', ...describeMask(variable, mask)];
    asking.found.push({
      id,
      family: id,
      node: node.id,
      point,
      test: { kind: 'exists', literals: [{ variable, atoms: changedAtoms(variable, mask) }] },
      claim: {
        kind: 'not-restored',
        at: procedure.leaves.get(end)?.[0]?.at ?? procedure.source.at,
        phase: 'end',
        wanted: { variable, mask, texts, at: variable.source.at },
      },
    });
  }
}

function askReadings(asking: Asking, { node, point }: Spot): void {
  const { main } = asking.graph.frames;
  for (const [id, variable] of main.readings) {
    const at =
      main.procedure.values.find((value) => value.id === id)?.source.idAt ??
      main.procedure.worksheets.find((worksheet) => worksheet.id === id)?.source.idAt ??
      main.procedure.source.at;
    const ask = (
      kind: 'value-stale' | 'value-not-passed-at-done',
      reading: 'stale' | 'failed',
      atoms: bigint,
    ): void => {
      asking.found.push({
        id: `${kind} ${id}`,
        family: `${kind} ${id}`,
        node: node.id,
        point,
        test: { kind: 'exists', literals: [{ variable, atoms }] },
        claim: {
          kind,
          at,
          phase: 'end',
          value: id,
          reading,
          wanted: { variable, mask: fullMask(variable) & ~atoms, texts: ['passed'], at },
        },
      });
    };
    ask('value-not-passed-at-done', 'failed', failed);
    ask('value-stale', 'stale', stale);
  }
}
