// All files of a book but its procedures: opened, and built in the order in which one needs the other.

import { type Diagnostic, diagnose } from '../../diagnostic/diagnostic.js';
import type { Book } from '../../model/book.js';
import type { Waiver } from '../../model/procedure.js';
import type { Keep } from '../../text/keep.js';
import type { SourceFile } from '../../text/source.js';
import type { FileKind } from '../schemas.js';
import { headerOf, machineOf } from './equipment.js';
import { fileAt } from './files.js';
import { issuedOf } from './issued.js';
import { fleetOf, termsOf } from './lists.js';
import { checkKebab } from './names.js';
import { type Opened, openFile } from './open.js';
import { type Part, partOf } from './part.js';
import { type Reading, startReading } from './reading.js';
import { safetyOf } from './safety.js';
import { languagesOf, settingsOf } from './settings.js';
import { stateKindsOf, statesOf } from './states.js';
import { cropsOf, instrumentsOf, toolsOf } from './stock.js';
import { waiversOf } from './waivers.js';

/** What was read of the shared files. */
export interface Shared {
  readonly parts: Omit<Book, 'procedures' | 'figures' | 'unread'>;
  readonly known: Pick<Reading, 'languages' | 'stateKinds'>;
  readonly diagnostics: readonly Diagnostic[];
  readonly unread: ReadonlySet<string>;
}

interface Gathering {
  readonly keep: Keep;
  readonly sources: ReadonlyMap<string, SourceFile>;
  readonly diagnostics: Diagnostic[];
  readonly unread: Set<string>;
  readonly waivers: Waiver[];
  known: Pick<Reading, 'languages' | 'stateKinds'>;
}

/**
 * Reads every shared file; missing where there is no book.yaml to begin with. A part whose file is the same as before is the
 * very same object.
 */
export function readShared(sources: ReadonlyMap<string, SourceFile>, keep: Keep): Shared | undefined {
  const gathering: Gathering = {
    keep,
    sources,
    diagnostics: [],
    unread: new Set(),
    waivers: [],
    known: keep('nothing known', [], () => ({ languages: ['en'], stateKinds: new Map() })),
  };
  const settings = settingsIn(gathering);
  if (!settings) return undefined;
  const { stateKinds, ...states } = fileIn(gathering, 'states', withStateKinds) ?? keep('no states', [], noStates);
  gathering.known = { ...gathering.known, stateKinds };
  const none = keep('nothing', [], () => ({
    safety: { hazards: new Map(), bundles: new Map(), rules: [], ends: new Map() },
    stock: { instruments: new Map(), tools: new Map(), crops: new Map(), terms: [], fleet: [], issued: [] },
  }));
  const parts = {
    settings,
    ...states,
    ...(fileIn(gathering, 'safety', safetyOf) ?? none.safety),
    machines: filesIn(gathering, 'machine', machineOf),
    headers: filesIn(gathering, 'header', headerOf),
    instruments: fileIn(gathering, 'instruments', instrumentsOf) ?? none.stock.instruments,
    tools: fileIn(gathering, 'tools', toolsOf) ?? none.stock.tools,
    crops: fileIn(gathering, 'crops', cropsOf) ?? none.stock.crops,
    terms: fileIn(gathering, 'terms', termsOf) ?? none.stock.terms,
    fleet: fileIn(gathering, 'fleet', fleetOf) ?? none.stock.fleet,
    issued: fileIn(gathering, 'issued', issuedOf) ?? none.stock.issued,
    waivers: keep('waivers', gathering.waivers, () => gathering.waivers),
  };
  return { parts, known: gathering.known, diagnostics: gathering.diagnostics, unread: gathering.unread };
}

type States = ReturnType<typeof statesOf> & Pick<Reading, 'stateKinds'>;

function withStateKinds(reading: Reading, part: Part): States {
  const stateKinds = stateKindsOf(reading, part);
  return { ...statesOf({ ...reading, stateKinds }, part), stateKinds };
}

function noStates(): States {
  return { states: new Map(), events: new Map(), physics: [], stateKinds: new Map() };
}

function settingsIn(gathering: Gathering): Book['settings'] | undefined {
  const file = gathering.sources.get('book.yaml');
  if (!file) return undefined;
  const opened = open(gathering, file, 'book');
  const node = opened.node ?? { kind: 'map' as const, entries: [], at: { file: file.path, start: 0, end: 0 } };
  const part = partOf(node);
  const languages = gathering.keep('languages', [opened], () => languagesOf(startReading(file, gathering.known), part));
  gathering.known = { ...gathering.known, languages };
  return build(gathering, opened, (reading) => settingsOf(reading, part));
}

function fileIn<T>(gathering: Gathering, kind: FileKind, make: (reading: Reading, part: Part) => T): T | undefined {
  const file = gathering.sources.get(`${kind}.yaml`);
  if (!file) return undefined;
  const opened = open(gathering, file, kind);
  const { node } = opened;
  return node && build(gathering, opened, (reading) => make(reading, partOf(node)));
}

function filesIn<T>(
  gathering: Gathering,
  kind: 'machine' | 'header',
  make: (reading: Reading, id: string, part: Part) => T | undefined,
): ReadonlyMap<string, T> {
  const made = new Map<string, T>();
  for (const file of gathering.sources.values()) {
    const found = fileAt(file.path);
    if (found.kind !== kind) continue;
    const opened = open(gathering, file, kind);
    const { node } = opened;
    const thing = build(gathering, opened, (reading) => {
      checkKebab(reading, { value: found.id, at: { file: file.path, start: 0, end: 0 } }, `a ${kind}`);
      return node && make(reading, found.id, partOf(node));
    });
    if (thing) made.set(found.id, thing);
  }
  return gathering.keep(`every ${kind}`, [...made].flat(), () => made);
}

function open(gathering: Gathering, file: SourceFile, kind: FileKind): Opened {
  const opened = openFile(file, kind, gathering.keep);
  gathering.diagnostics.push(...opened.diagnostics);
  if (opened.hasGaps) gathering.unread.add(file.path);
  return opened;
}

function build<T>({ keep, known, ...gathering }: Gathering, opened: Opened, make: (reading: Reading) => T): T {
  const { file, node } = opened;
  const built = keep(`build ${file.path}`, [opened, known.languages, known.stateKinds], () => {
    const reading = startReading(file, known);
    const made = make(reading);
    const waivers = node ? waiversOf(node, { file: file.path, start: 0, end: file.text.length }) : [];
    const hasGaps = reading.gaps.length > 0;
    return { made, diagnostics: [...reading.diagnostics, ...missingIn(reading)], hasGaps, waivers };
  });
  gathering.diagnostics.push(...built.diagnostics);
  gathering.waivers.push(...built.waivers);
  if (built.hasGaps) gathering.unread.add(file.path);
  return built.made;
}

/** Texts without a language, as one hint for each language: a shared file has dozens of them. */
function missingIn(reading: Reading): readonly Diagnostic[] {
  return reading.languages.flatMap((language) => {
    const places = reading.missing.filter((text) => text.language === language).map(({ at }) => at);
    const [first, ...others] = places;
    if (!first) return [];
    const main = reading.languages[0];
    return diagnose({
      code: 'missing-translation',
      severity: 'hint',
      message: `${places.length === 1 ? 'One text of this file is' : `${places.length} texts of this file are`} not translated into \`${language}\``,
      at: first,
      related: others.map((at) => ({ message: 'Another one', at })),
      help: `Give a text in every language: \`{ ${main}: …, ${language}: … }\`.`,
    });
  });
}
