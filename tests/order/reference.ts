// The order of steps explored the obvious way: one state of the world at a time, every count as a number, nothing shared
// between paths. Slow, and written apart from src/order: it takes only the types of procedures from there.

import { compare, rational } from '../../src/calc/rational.js';
import type {
  End,
  ResolvedBranch,
  ResolvedCondition,
  ResolvedProcedure,
  ResolvedRule,
  ResolvedStep,
  Variant,
  World,
} from '../../src/model/resolved.js';

/** A fault with the least number of steps after which it shows. */
export type Found = ReadonlyMap<string, number>;

type Readings = Readonly<Record<string, string>>;

interface Level {
  readonly procedure: ResolvedProcedure;
  readonly index: number;
  /** Behind the `run` of this step. */
  readonly returned: boolean;
  /** Members of any-order groups that are done. */
  readonly done: readonly string[];
  readonly counts: Readonly<Record<string, number>>;
  readonly readings: Readings;
  /** Person 1 here is this person; that person is 1 here. */
  readonly first: number;
}

interface Situation {
  /** `engine: off`, and `person 1: cab`. */
  readonly world: Readonly<Record<string, string>>;
  readonly start: Readonly<Record<string, string>>;
  readonly levels: readonly Level[];
  /** The end whose procedure is done. */
  readonly ending?: End;
  readonly over?: End;
  /** Readings of the variant's own procedure when it ended. */
  readonly final?: Readings;
}

interface Explorer {
  readonly variant: Variant;
  readonly world: World;
  readonly people: number;
  readonly domains: ReadonlyMap<string, readonly string[]>;
  readonly found: Map<string, number>;
  depth: number;
}

/** Explores everything; undefined where there are more than `most` situations. */
export function explorePlainly(variant: Variant, world: World, most: number): Found | undefined {
  const people = Math.max(
    ...allProcedures(variant).map(({ people: n, steps }) => Math.max(n, ...steps.map(({ by }) => by))),
  );
  const explorer: Explorer = {
    variant,
    world,
    people,
    domains: domainsOf(variant, world, people),
    found: new Map(),
    depth: 0,
  };
  let border = startSituations(explorer);
  const seen = new Set(border.map((each) => keyOf(each)));
  for (; border.length > 0; explorer.depth += 1) {
    const next: Situation[] = [];
    for (const situation of border) {
      for (const follower of stepFrom(explorer, situation)) {
        const key = keyOf(follower);
        if (seen.has(key)) continue;
        seen.add(key);
        next.push(follower);
      }
    }
    if (seen.size > most) return undefined;
    border = next;
  }
  return explorer.found;
}

function keyOf(situation: Situation): string {
  return JSON.stringify(situation, (name, each) => (name === 'procedure' ? each.id : each));
}

function allProcedures(variant: Variant): readonly ResolvedProcedure[] {
  const within = (procedure: ResolvedProcedure): readonly ResolvedProcedure[] => [
    procedure,
    ...procedure.steps.flatMap(({ run }) => (run ? within(run) : [])),
  ];
  return [variant.procedure, ...variant.ends.values()].flatMap(within);
}

// A quantity may have each value that limits name, and one between and beyond them.
function domainsOf(variant: Variant, world: World, people: number): ReadonlyMap<string, readonly string[]> {
  const ends = new Map<string, number[]>();
  const collect = (each: unknown): void => {
    if (typeof each !== 'object' || each === null) return;
    if ('state' in each && 'test' in each) {
      const { state, test } = each as ResolvedCondition;
      if (test.kind !== 'limits') return;
      for (const end of [test.limits.low, test.limits.high])
        if (end) ends.set(state, [...(ends.get(state) ?? []), Number(end.num)]);
    } else for (const part of each instanceof Map ? each.values() : Object.values(each)) collect(part);
  };
  for (const part of [world, variant.procedure, variant.ends]) collect(part);
  const domains = new Map<string, readonly string[]>();
  for (const { id, values } of world.variables) {
    const cuts = [...new Set(ends.get(id) ?? [])].sort((a, b) => a - b);
    const numbers = [(cuts[0] ?? 0) - 1, ...cuts.flatMap((cut, i) => [cut, ((cuts[i + 1] ?? cut + 2) + cut) / 2])];
    const domain = values.length > 0 ? values : numbers.map(String);
    if (id === 'person') for (let person = 1; person <= people; person += 1) domains.set(`person ${person}`, domain);
    else domains.set(id, domain);
  }
  return domains;
}

function nameOf(state: string, person: number): string {
  return state === 'person' ? `person ${person}` : state;
}

function allows({ test }: ResolvedCondition, value: string): boolean {
  if (test.kind === 'unknown') return true;
  if (test.kind === 'words') return test.words.includes(value);
  const number = rational(BigInt(Math.round(Number(value) * 2)), 2n);
  const { low, high } = test.limits;
  return (!low || compare(low, number) <= 0) && (!high || compare(number, high) <= 0);
}

function holds(condition: ResolvedCondition, world: Situation['world'], person: number): boolean {
  return allows(condition, world[nameOf(condition.state, person)] ?? '');
}

function startSituations(explorer: Explorer): Situation[] {
  const { variant, world, domains } = explorer;
  let worlds: Record<string, string>[] = [{}];
  for (const [name, domain] of domains) {
    const state = name.startsWith('person ') ? 'person' : name;
    const required = variant.procedure.requires.filter(({ condition }) => condition.state === state);
    const assumed = world.variables.find(({ id }) => id === state)?.start;
    const possible = domain.filter((value) =>
      required.length > 0
        ? required.every(({ condition }) => allows(condition, value))
        : assumed === undefined || value === assumed,
    );
    worlds = worlds.flatMap((each) => possible.map((value) => ({ ...each, [name]: value })));
  }
  return worlds
    .filter((each) =>
      lawCases(explorer).every(
        (law) =>
          !triggers(law, each) ||
          law.effects.every((effect) => effect.unknown || effect.allows(each[effect.name] ?? '')),
      ),
    )
    .flatMap((each) =>
      enter(explorer, { world: each, start: restorable(explorer, each), levels: [] }, variant.procedure, 1),
    );
}

function restorable({ world, people }: Explorer, values: Situation['world']): Record<string, string> {
  const names = world.variables
    .filter(({ restore }) => restore)
    .flatMap(({ id }) => (id === 'person' ? Array.from({ length: people }, (_, i) => `person ${i + 1}`) : [id]));
  return Object.fromEntries(names.map((name) => [name, values[name] ?? '']));
}

interface LawCase {
  readonly when: readonly { readonly name: string; readonly condition: ResolvedCondition }[];
  readonly effects: readonly {
    readonly name: string;
    readonly unknown: boolean;
    readonly allows: (value: string) => boolean;
  }[];
}

function lawCases({ world, people }: Explorer): readonly LawCase[] {
  const everyone = Array.from({ length: people }, (_, i) => i + 1);
  return world.physics.flatMap(({ when, then }) => {
    const personal = when.some(({ state }) => state === 'person');
    return (personal ? everyone : [1]).map((person) => ({
      when: when.map((condition) => ({ name: nameOf(condition.state, person), condition })),
      effects: then.flatMap((condition) => {
        const targets = condition.state === 'person' && !personal ? everyone : [person];
        return targets.map((target) => ({
          name: nameOf(condition.state, target),
          unknown: condition.test.kind === 'unknown',
          allows: (value: string) => allows(condition, value),
        }));
      }),
    }));
  });
}

function triggers({ when }: LawCase, world: Situation['world']): boolean {
  return when.every(({ name, condition }) => allows(condition, world[name] ?? ''));
}

interface Settled {
  readonly world: Readonly<Record<string, string>>;
  readonly changed: readonly string[];
  readonly forced: readonly string[];
}

// Lets the laws act one after the other, again and again, until the states that come of it are those that were there.
function settle(explorer: Explorer, world: Situation['world']): readonly Settled[] {
  const laws = lawCases(explorer);
  const history: string[] = [];
  const rounds: Settled[][] = [];
  let states: Settled[] = [{ world, changed: [], forced: [] }];
  for (;;) {
    const key = JSON.stringify(states);
    const again = history.indexOf(key);
    if (again >= 0) return distinct(rounds.slice(again).flat());
    history.push(key);
    rounds.push(states);
    states = distinct(
      laws.reduce(
        (list, law) => list.flatMap((each) => (triggers(law, each.world) ? follow(explorer, law, each) : [each])),
        states,
      ),
    );
  }
}

function distinct(states: readonly Settled[]): Settled[] {
  const sorted = states.map(({ world, changed, forced }) => ({
    world,
    changed: [...new Set(changed)].sort(),
    forced: [...new Set(forced)].sort(),
  }));
  return [...new Map(sorted.map((each) => [JSON.stringify(each), each] as const)).entries()]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, each]) => each);
}

function follow({ domains }: Explorer, { effects }: LawCase, state: Settled): readonly Settled[] {
  let states: readonly Settled[] = [state];
  for (const { name, unknown, allows: may } of effects) {
    states = states.flatMap((each) => {
      if (!unknown && may(each.world[name] ?? '')) return [each];
      const domain = domains.get(name) ?? [];
      if (domain.length < 2) return [each];
      return domain
        .filter((value) => unknown || may(value))
        .map((value) => ({
          world: { ...each.world, [name]: value },
          changed: [...each.changed, name],
          forced: unknown ? each.forced : [...each.forced, name],
        }));
    });
  }
  return states;
}

// Enters a procedure; at once through it where it has no steps.
function enter(explorer: Explorer, situation: Situation, procedure: ResolvedProcedure, first: number): Situation[] {
  const readings = Object.fromEntries([...procedure.values, ...procedure.worksheets].map(({ id }) => [id, 'absent']));
  const level: Level = { procedure, index: 0, returned: false, done: [], counts: {}, readings, first };
  const inside = { ...situation, levels: [...situation.levels, level] };
  return arrive(explorer, inside, 0);
}

function top({ levels }: Situation): Level {
  const level = levels.at(-1);
  if (!level) throw new Error('No procedure is being done');
  return level;
}

function withTop(situation: Situation, change: Partial<Level>): Situation {
  return { ...situation, levels: [...situation.levels.slice(0, -1), { ...top(situation), ...change }] };
}

function groupOf({ procedure }: Level, index: number): readonly number[] | undefined {
  const id = procedure.steps[index]?.id ?? '';
  const group = procedure.anyOrder.find((ids) => ids.includes(id));
  return group && group.length > 1
    ? procedure.steps.flatMap((step, at) => (group.includes(step.id) ? [at] : []))
    : undefined;
}

function arrive(explorer: Explorer, situation: Situation, index: number): Situation[] {
  const level = top(situation);
  if (index >= level.procedure.steps.length) return leave(explorer, situation, 'done');
  const group = groupOf(level, index);
  if (!group) return [withTop(situation, { index, returned: false })];
  const done = level.done.filter((id) => !group.some((at) => level.procedure.steps[at]?.id === id));
  return group.map((at) => withTop(situation, { index: at, returned: false, done }));
}

function next(explorer: Explorer, situation: Situation): Situation[] {
  const level = top(situation);
  const group = groupOf(level, level.index);
  const id = level.procedure.steps[level.index]?.id ?? '';
  if (!group) return arrive(explorer, situation, level.index + 1);
  const done = [...new Set([...level.done, id])].sort();
  const rest = group.filter((at) => !done.includes(level.procedure.steps[at]?.id ?? ''));
  if (rest.length > 0) return rest.map((at) => withTop(situation, { index: at, returned: false, done }));
  const cleared = withTop(situation, {
    done: done.filter((each) => !group.some((at) => level.procedure.steps[at]?.id === each)),
  });
  return arrive(explorer, cleared, Math.max(...group) + 1);
}

function go(explorer: Explorer, situation: Situation, target: string): Situation[] {
  if (target === 'done' || target === 'stop' || target === 'call-service') return leave(explorer, situation, target);
  const level = top(situation);
  const index = level.procedure.steps.findIndex(({ id }) => id === target);
  if (index < 0) return [];
  const group = groupOf(level, level.index);
  const own = level.procedure.steps[level.index]?.id ?? '';
  let done = group?.includes(index) ? [...new Set([...level.done, own])].sort() : level.done;
  if (!groupOf(level, index)) {
    // a group that lies wholly behind the target is begun anew
    const ahead = level.procedure.anyOrder
      .filter((ids) => ids.every((id) => level.procedure.steps.findIndex((step) => step.id === id) > index))
      .flat();
    done = done.filter((id) => !ahead.includes(id));
  }
  return [withTop(situation, { index, returned: false, done })];
}

function leave(explorer: Explorer, situation: Situation, end: End): Situation[] {
  if (end === 'done' && situation.levels.length > 1) {
    const outer = { ...situation, levels: situation.levels.slice(0, -1) };
    return [withTop(outer, { returned: true })];
  }
  if (situation.ending) return [{ ...situation, levels: [], over: situation.ending }];
  const final = situation.levels[0]?.readings ?? {};
  const after = explorer.variant.ends.get(end);
  const ended: Situation = { ...situation, levels: [], ...(end === 'done' ? { final } : {}) };
  if (!after) return [{ ...ended, over: end }];
  return enter(explorer, { ...ended, ending: end }, after, 1);
}

function place(situation: Situation): string {
  const { levels, ending, over } = situation;
  if (over) return `end ${over}`;
  const calls = levels.slice(0, -1).map(({ procedure, index }) => procedure.steps[index]?.id ?? '');
  const level = top(situation);
  return [ending ?? '', ...calls, level.procedure.steps[level.index]?.id ?? ''].join('/');
}

function report(explorer: Explorer, kind: string, at: string, detail: string): void {
  const key = `${kind} @ ${at} @ ${detail}`;
  if (!explorer.found.has(key)) explorer.found.set(key, explorer.depth);
}

function wantedText(condition: ResolvedCondition, person: number): string {
  const { test } = condition;
  const texts = test.kind === 'words' ? test.words.join('|') : test.kind === 'limits' ? test.text : '';
  return `${nameOf(condition.state, person)}=${texts}`;
}

interface RuleCase {
  readonly rule: ResolvedRule;
  readonly person: number;
}

function ruleCases({ world, people }: Explorer): readonly RuleCase[] {
  return world.rules.flatMap((rule) => {
    const personal = [...rule.when, ...rule.must].some(({ state }) => state === 'person');
    return Array.from({ length: personal ? people : 1 }, (_, i) => ({ rule, person: i + 1 }));
  });
}

function triggered({ rule, person }: RuleCase, world: Situation['world']): boolean {
  return rule.when.every((condition) => holds(condition, world, person));
}

function checkRules(explorer: Explorer, at: string, world: Situation['world'], energized: boolean): void {
  for (const each of ruleCases(explorer)) {
    if (!triggered(each, world)) continue;
    report(explorer, 'trigger', at, each.rule.id);
    if (energized && each.rule.exceptEnergized) continue;
    for (const condition of each.rule.must) {
      if (!holds(condition, world, each.person)) {
        report(explorer, 'rule-broken', at, `${each.rule.id} ${wantedText(condition, each.person)}`);
      }
    }
  }
}

function actorOf({ first }: Level, by: number): number {
  return by === 1 ? first : by === first ? 1 : by;
}

interface Doing {
  readonly explorer: Explorer;
  readonly situation: Situation;
  readonly step: ResolvedStep;
  readonly actor: number;
  readonly at: string;
}

function stepFrom(explorer: Explorer, situation: Situation): readonly Situation[] {
  if (situation.over) {
    judgeEnd(explorer, situation, situation.over);
    return [];
  }
  const level = top(situation);
  const step = level.procedure.steps[level.index];
  if (!step) throw new Error('Past the last step');
  const doing: Doing = { explorer, situation, step, actor: actorOf(level, step.by), at: place(situation) };
  if (level.returned) return act(doing, situation);
  for (const condition of step.needs) {
    if (!holds(condition, situation.world, doing.actor))
      report(explorer, 'need-not-met', doing.at, wantedText(condition, doing.actor));
  }
  return placesOf(doing).all.flatMap((where) => {
    const world =
      where === undefined ? situation.world : { ...situation.world, [nameOf('person', doing.actor)]: where };
    const moved = { ...situation, world };
    checkRules(explorer, doing.at, world, step.energized !== undefined);
    return step.run ? call(doing, moved, step.run) : act(doing, moved);
  });
}

function placesOf({ explorer, step, situation }: Doing): {
  all: readonly (string | undefined)[];
  stays: readonly string[];
} {
  const known = explorer.world.variables.find(({ id }) => id === 'person')?.values ?? [];
  const { procedure } = top(situation);
  const readAt = (id: string): readonly string[] => {
    const value = procedure.values.find((each) => each.id === id);
    const sheet = procedure.worksheets.find((each) => each.id === id);
    const places = value
      ? [value.readAt]
      : (sheet?.columns ?? []).map(({ instrument }) => instrument?.source.readAt?.value);
    return places.flatMap((each) => (each !== undefined && known.includes(each) ? [each] : []));
  };
  const watched = watchedIn(procedure, step);
  const stays = [
    ...(step.place !== undefined && known.includes(step.place) ? [step.place] : []),
    ...step.measure.flatMap(readAt),
  ];
  const all = [...stays, ...watched.flatMap(readAt)];
  return {
    all: all.length > 0 ? [...new Set(all)] : [undefined],
    stays: stays.length > 0 ? [...new Set(stays)] : [...new Set(all)],
  };
}

function watchedIn(procedure: ResolvedProcedure, step: ResolvedStep): readonly string[] {
  const watched = step.adjust.flatMap((id) => procedure.adjusters.find((each) => each.id === id)?.watch ?? []);
  return watched.filter((id) => !step.measure.includes(id));
}

function call({ explorer, actor, at }: Doing, situation: Situation, callee: ResolvedProcedure): readonly Situation[] {
  checkCall(explorer, situation.world, { callee, at, actor });
  return enter(explorer, situation, callee, actor);
}

function checkCall(
  explorer: Explorer,
  world: Situation['world'],
  { callee, at, actor }: { callee: ResolvedProcedure; at: string; actor: number },
  placeToo = true,
): void {
  for (const { condition } of callee.requires) {
    if (!holds(condition, world, actor))
      report(explorer, 'requires-not-met-at-run', at, `${callee.id} ${wantedText(condition, actor)}`);
  }
  const start = explorer.world.variables.find(({ id }) => id === 'person')?.start;
  const says = callee.requires.some(({ condition }) => condition.state === 'person');
  if (placeToo && start !== undefined && !says && world[nameOf('person', actor)] !== start) {
    report(explorer, 'place-not-met-at-run', at, `${callee.id} ${nameOf('person', actor)}=${start}`);
  }
}

// The act of a step and all that may come of it.
function act(doing: Doing, situation: Situation): readonly Situation[] {
  const { explorer, step, actor } = doing;
  checkBeforeAct(doing, situation);
  const aged = ageReadings(situation, step);
  const followers: Situation[] = [];
  for (const world of afterStanding(doing, situation.world)) {
    for (const set of choices(explorer, world, step.sets, actor)) {
      for (const settled of settle(explorer, set)) {
        checkAct(doing, situation, settled, 'after', step.sets);
        followers.push(...held(doing, { ...aged, world: settled.world }));
      }
    }
    for (const { means, target } of counted(step.otherwise, 'otherwise', situation, step)) {
      const free = choices(
        explorer,
        world,
        step.sets.map((each) => ({ ...each, test: { kind: 'unknown', at: each.at } }) as ResolvedCondition),
        actor,
      );
      for (const seen of free.flatMap((each) => choices(explorer, each, means, actor))) {
        for (const settled of settle(explorer, seen)) {
          const early = target.go === 'stop' || target.go === 'call-service';
          checkAct(doing, situation, settled, early ? 'early' : 'failed', means);
          followers.push(...branchOff(doing, { ...aged, world: settled.world }, target));
        }
      }
    }
  }
  return followers;
}

function afterStanding(doing: Doing, world: Situation['world']): readonly Situation['world'][] {
  const { all, stays } = placesOf(doing);
  if (top(doing.situation).returned || all.length === stays.length || stays.length === 0) return [world];
  return stays.map((where) => ({ ...world, [nameOf('person', doing.actor)]: where }));
}

function checkBeforeAct({ explorer, step, actor, at, situation: { levels } }: Doing, { world }: Situation): void {
  const level = levels.at(-1);
  for (const state of new Set(step.sets.map((each) => each.state))) {
    for (const condition of explorer.world.variables.find(({ id }) => id === state)?.movesWhen ?? []) {
      if (!holds(condition, world, actor))
        report(explorer, 'moves-when', at, `${state} ${wantedText(condition, actor)}`);
    }
  }
  if (!level) return;
  for (const id of [...step.measure, ...watchedIn(level.procedure, step)]) {
    for (const condition of level.procedure.values.find((value) => value.id === id)?.needs ?? []) {
      const own = step.sets.some(({ state }) => state === condition.state);
      if (!own && !holds(condition, world, actor))
        report(explorer, 'instrument-needs', at, `${id} ${wantedText(condition, actor)}`);
    }
  }
  for (const id of step.adjust) {
    const moved = [...(level.procedure.adjusters.find((each) => each.id === id)?.moves.keys() ?? [])];
    const fresh = moved.some((value) => ['passed', 'failed'].includes(level.readings[value] ?? ''));
    if (!fresh) report(explorer, 'adjust-without-reading', at, id);
  }
}

function choices(
  { domains }: Explorer,
  world: Situation['world'],
  sets: readonly ResolvedCondition[],
  actor: number,
): Situation['world'][] {
  let worlds: Situation['world'][] = [world];
  for (const condition of sets) {
    const name = nameOf(condition.state, actor);
    const values = (domains.get(name) ?? []).filter((value) => allows(condition, value));
    worlds = worlds.flatMap((each) => values.map((value) => ({ ...each, [name]: value })));
  }
  return worlds;
}

function ageReadings(situation: Situation, step: ResolvedStep): Situation {
  const { procedure, readings } = top(situation);
  const aged = new Set([
    ...step.stale,
    ...step.adjust.flatMap((id) => [...(procedure.adjusters.find((each) => each.id === id)?.moves.keys() ?? [])]),
  ]);
  for (let more = true; more; ) {
    const derived = procedure.values.filter(
      ({ id, derived: made }) => !aged.has(id) && made?.inputs.some((input) => aged.has(input)),
    );
    for (const { id } of derived) aged.add(id);
    more = derived.length > 0;
  }
  const now = Object.fromEntries(
    Object.entries(readings).map(([id, result]) => [id, aged.has(id) && result !== 'absent' ? 'stale' : result]),
  );
  return withTop(situation, { readings: now });
}

function checkAct(
  doing: Doing,
  before: Situation,
  settled: Settled,
  phase: 'after' | 'failed' | 'early',
  named: readonly ResolvedCondition[],
): void {
  const { explorer, step, actor, at } = doing;
  const energized = step.energized !== undefined;
  checkRules(explorer, at, settled.world, energized);
  for (const { state, test } of named) {
    const name = nameOf(state, actor);
    if (test.kind !== 'unknown' && settled.forced.includes(name)) {
      report(explorer, 'physics-forbids-set', at, `${state} ${phase === 'after' ? 'sets' : 'means'}`);
    }
  }
  checkUnchanged(doing, before, settled, phase);
  if (phase !== 'early') checkThroughout(doing, settled.world);
  if (phase !== 'after') return;
  const level = top(before);
  for (const id of [...step.measure, ...watchedIn(level.procedure, step)]) {
    for (const condition of level.procedure.values.find((value) => value.id === id)?.needs ?? []) {
      const own = step.sets.some(({ state }) => state === condition.state);
      if (own && !holds(condition, settled.world, actor))
        report(explorer, 'instrument-needs', at, `${id} ${wantedText(condition, actor)}`);
    }
  }
  for (const id of step.measure) {
    for (const input of level.procedure.values.find((value) => value.id === id)?.derived?.inputs ?? []) {
      const reading = step.measure.includes(input) ? 'passed' : (top(ageReadings(before, step)).readings[input] ?? '');
      if (reading === 'absent' || reading === 'stale')
        report(explorer, 'derived-from-stale', at, `${id} ${input} ${reading}`);
    }
  }
}

function checkUnchanged(
  { explorer, step, actor, at }: Doing,
  before: Situation,
  settled: Settled,
  phase: string,
): void {
  for (const each of ruleCases(explorer)) {
    if (step.energized !== undefined && each.rule.exceptEnergized) continue;
    const was = triggered(each, before.world);
    const is = triggered(each, settled.world);
    for (const state of each.rule.unchanged) {
      const own = step.sets.some((set) => set.state === state);
      if (own && (was || (is && phase === 'after')))
        report(explorer, 'unchanged-broken', at, `${each.rule.id} ${state} sets`);
      const names = state === 'person' ? Array.from({ length: explorer.people }, (_, i) => `person ${i + 1}`) : [state];
      for (const name of names) {
        if (own && name === nameOf(state, actor)) continue;
        if ((was || is) && settled.changed.includes(name))
          report(explorer, 'unchanged-broken', at, `${each.rule.id} ${state} physics`);
      }
    }
  }
}

function checkThroughout({ explorer, actor, at, situation }: Doing, world: Situation['world']): void {
  for (const { procedure } of situation.levels) {
    for (const { condition, throughout } of procedure.requires) {
      if (throughout && !holds(condition, world, actor))
        report(explorer, 'throughout-broken', at, wantedText(condition, actor));
    }
  }
}

interface Way {
  readonly target: ResolvedBranch;
  readonly means: readonly ResolvedCondition[];
  readonly uses?: string;
}

// Where a branch leads as the counts stand, and what it says is seen.
function counted(
  branch: ResolvedBranch | undefined,
  key: string,
  situation: Situation,
  step: ResolvedStep,
): readonly Way[] {
  const { counts } = top(situation);
  let means: readonly ResolvedCondition[] = [];
  let number = 0;
  for (let level = branch; level; level = level.otherwise) {
    if (level.means.length > 0) means = level.means;
    const name = `${step.id} ${key} ${number}`;
    if (level.atMost === undefined) return [{ target: level, means }];
    if ((counts[name] ?? 0) < level.atMost) return [{ target: level, means, uses: name }];
    number += 1;
  }
  return [];
}

function branchOff({ explorer, step }: Doing, situation: Situation, target: ResolvedBranch): readonly Situation[] {
  const key = wayKey(step, target);
  const { counts } = top(situation);
  const now =
    key === undefined ? situation : withTop(situation, { counts: { ...counts, [key]: (counts[key] ?? 0) + 1 } });
  const followers = go(explorer, now, target.go);
  const ending = followers.find((each) => each.ending && !situation.ending)?.ending;
  if (ending) checkEndCall(explorer, situation, ending, followers);
  return followers;
}

// The name under which a branch is counted; undefined for one without a count.
function wayKey(step: ResolvedStep, target: ResolvedBranch): string | undefined {
  const first: [string, ResolvedBranch | undefined][] = [
    ['otherwise', step.otherwise],
    ...[...step.when].map(([key, branch]): [string, ResolvedBranch] => [key, branch]),
    ...step.answers.map(({ key, branch }): [string, ResolvedBranch] => [`answer ${key}`, branch]),
    ['then', step.then],
  ];
  for (const [key, branch] of first) {
    let number = 0;
    for (let level = branch; level; level = level.otherwise) {
      if (level === target && level.atMost !== undefined) return `${step.id} ${key} ${number}`;
      number += 1;
    }
  }
  return undefined;
}

function checkEndCall(explorer: Explorer, situation: Situation, ending: End, followers: readonly Situation[]): void {
  const callee = explorer.variant.ends.get(ending);
  if (!callee) return;
  for (const follower of followers) {
    const inside = follower.levels.at(-1);
    const step = inside?.procedure.steps[inside.index];
    const doing = step && { explorer, situation: follower, step, actor: 1, at: '' };
    const moves = doing !== undefined && placesOf(doing).all.some((each) => each !== undefined);
    checkCall(explorer, situation.world, { callee, at: place(situation), actor: 1 }, !moves);
  }
}

// What comes after an act that did not fail: the reading, the answer, then, next.
function held(doing: Doing, situation: Situation): readonly Situation[] {
  const { step } = doing;
  const passed = withReadings(situation, step.measure, 'passed');
  const followers: Situation[] = [];
  for (const [key, read] of failures(step, top(situation).procedure)) {
    for (const each of read.map((failed) => withReadings(passed, failed, 'failed'))) {
      for (const way of counted(step.when.get(key), key, situation, step)) followers.push(...seen(doing, each, way));
    }
  }
  for (const { key, branch } of step.answers) {
    for (const way of counted(branch, `answer ${key}`, situation, step)) followers.push(...seen(doing, passed, way));
  }
  if (step.answers.length > 0) return followers;
  const ways = counted(step.then, 'then', situation, step);
  return [...followers, ...(ways.length > 0 ? ways.flatMap((way) => seen(doing, passed, way)) : onward(doing, passed))];
}

function onward({ explorer }: Doing, situation: Situation): readonly Situation[] {
  const followers = next(explorer, situation);
  const ending = followers.find((each) => each.ending && !situation.ending)?.ending;
  if (ending) checkEndCall(explorer, situation, ending, followers);
  return followers;
}

function seen(doing: Doing, situation: Situation, { target, means }: Way): readonly Situation[] {
  const { explorer, actor, at } = doing;
  if (means.length === 0) return branchOff(doing, situation, target);
  return choices(explorer, situation.world, means, actor).flatMap((world) =>
    settle(explorer, world).flatMap((settled) => {
      for (const { state, test } of means) {
        if (test.kind !== 'unknown' && settled.forced.includes(nameOf(state, actor)))
          report(explorer, 'physics-forbids-set', at, `${state} means`);
      }
      return branchOff(doing, { ...situation, world: settled.world }, target);
    }),
  );
}

function withReadings(situation: Situation, ids: readonly string[], result: string): Situation {
  const { readings } = top(situation);
  return withTop(situation, { readings: { ...readings, ...Object.fromEntries(ids.map((id) => [id, result])) } });
}

// For each branch of a reading: the sets of values that may have failed when it is taken.
function failures(
  step: ResolvedStep,
  procedure: ResolvedProcedure,
): ReadonlyMap<'outside' | 'low' | 'high' | 'unsure' | 'fault', readonly string[][]> {
  const limited = step.measure.filter((id) => waysToFail(id, procedure).length > 0);
  const result = new Map<'outside' | 'low' | 'high' | 'unsure' | 'fault', string[][]>();
  for (const id of limited) {
    for (const ways of waysToFail(id, procedure)) {
      const way = ways.find((each) => step.when.has(each));
      if (!way) continue;
      const others = limited.filter((each) => each !== id);
      const sets = subsets(others).map((rest) => [id, ...rest]);
      result.set(way, [...(result.get(way) ?? []), ...sets]);
    }
  }
  return result;
}

function subsets(ids: readonly string[]): string[][] {
  const [first, ...others] = ids;
  if (first === undefined) return [[]];
  return subsets(others).flatMap((each) => [each, [first, ...each]]);
}

function waysToFail(
  id: string,
  procedure: ResolvedProcedure,
): readonly (readonly ('outside' | 'low' | 'high' | 'unsure' | 'fault')[])[] {
  const value = procedure.values.find((each) => each.id === id);
  const limits = value
    ? (value.acceptance ?? value.tolerance)
    : procedure.worksheets.find((each) => each.id === id)?.results[0]?.limits;
  const ways: ('outside' | 'low' | 'high' | 'unsure' | 'fault')[][] = [];
  if (limits?.low) ways.push(['low', 'outside']);
  if (limits?.high) ways.push(['high', 'outside']);
  if (value?.inside)
    ways.push(
      limits?.low ? ['fault', 'outside', 'low'] : ['fault', 'outside'],
      limits?.high ? ['fault', 'outside', 'high'] : ['fault', 'outside'],
    );
  if (limits && value?.decision === 'three-zone') ways.push(['unsure', 'outside', 'low', 'high']);
  return ways;
}

function judgeEnd(explorer: Explorer, situation: Situation, end: End): void {
  const { world, start, final } = situation;
  const at = `end ${end}`;
  const leaves = explorer.variant.procedure.leaves.get(end) ?? [];
  checkRules(explorer, at, world, false);
  for (const condition of leaves)
    if (!holds(condition, world, 1)) report(explorer, 'leaves-not-met', at, wantedText(condition, 1));
  for (const { condition, throughout } of end === 'done' ? explorer.variant.procedure.requires : []) {
    if (throughout && !holds(condition, world, 1)) report(explorer, 'throughout-broken', at, wantedText(condition, 1));
  }
  for (const condition of end === 'done' ? [] : (explorer.world.ends.get(end)?.must ?? [])) {
    for (let person = 1; person <= (condition.state === 'person' ? explorer.people : 1); person += 1) {
      if (!holds(condition, world, person)) report(explorer, 'end-must-not-met', at, wantedText(condition, person));
    }
  }
  for (const [name, was] of Object.entries(start)) {
    const state = name.startsWith('person ') ? 'person' : name;
    const safe = end === 'done' ? undefined : explorer.world.variables.find(({ id }) => id === state)?.safe;
    if (leaves.some((condition) => condition.state === state)) continue;
    if (world[name] !== was && world[name] !== safe) report(explorer, 'not-restored', at, name);
  }
  for (const [id, result] of Object.entries(final ?? {})) {
    if (result === 'failed') report(explorer, 'value-not-passed-at-done', at, id);
    if (result === 'stale') report(explorer, 'value-stale', at, id);
  }
}
