// All files of a book but its procedures: opened, and built in the order in which one needs the other.

import { type Diagnostic, diagnose } from '../../diagnostic/diagnostic.js';
import type { Book } from '../../model/book.js';
import type { Waiver } from '../../model/procedure.js';
import type { SourceFile } from '../../text/source.js';
import type { FileKind } from '../schemas.js';
import { headerOf, machineOf } from './equipment.js';
import { fileAt } from './files.js';
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
  readonly sources: ReadonlyMap<string, SourceFile>;
  readonly diagnostics: Diagnostic[];
  readonly unread: Set<string>;
  readonly waivers: Waiver[];
  known: Pick<Reading, 'languages' | 'stateKinds'>;
}

/** Reads every shared file; missing where there is no book.yaml to begin with. */
export function readShared(sources: ReadonlyMap<string, SourceFile>): Shared | undefined {
  const gathering: Gathering = {
    sources,
    diagnostics: [],
    unread: new Set(),
    waivers: [],
    known: { languages: ['en'], stateKinds: new Map() },
  };
  const settings = settingsIn(gathering);
  if (!settings) return undefined;
  const states = fileIn(gathering, 'states', withStateKinds) ?? { states: new Map(), events: new Map(), physics: [] };
  const none = { hazards: new Map(), bundles: new Map(), rules: [], ends: new Map() };
  const parts = {
    settings,
    ...states,
    ...(fileIn(gathering, 'safety', safetyOf) ?? none),
    machines: filesIn(gathering, 'machine', machineOf),
    headers: filesIn(gathering, 'header', headerOf),
    instruments: fileIn(gathering, 'instruments', instrumentsOf) ?? new Map(),
    tools: fileIn(gathering, 'tools', toolsOf) ?? new Map(),
    crops: fileIn(gathering, 'crops', cropsOf) ?? new Map(),
    terms: fileIn(gathering, 'terms', termsOf) ?? [],
    fleet: fileIn(gathering, 'fleet', fleetOf) ?? [],
    waivers: gathering.waivers,
  };
  return { parts, known: gathering.known, diagnostics: gathering.diagnostics, unread: gathering.unread };

  function withStateKinds(reading: Reading, part: Part): ReturnType<typeof statesOf> {
    const stateKinds = stateKindsOf(reading, part);
    gathering.known = { ...gathering.known, stateKinds };
    return statesOf({ ...reading, stateKinds }, part);
  }
}

function settingsIn(gathering: Gathering): Book['settings'] | undefined {
  const file = gathering.sources.get('book.yaml');
  if (!file) return undefined;
  const opened = open(gathering, file, 'book');
  const node = opened.node ?? { kind: 'map' as const, entries: [], at: { file: file.path, start: 0, end: 0 } };
  const part = partOf(node);
  const languages = languagesOf(startReading(file, gathering.known), part);
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
  return made;
}

function open(gathering: Gathering, file: SourceFile, kind: FileKind): Opened {
  const opened = openFile(file, kind);
  gathering.diagnostics.push(...opened.diagnostics);
  if (opened.hasGaps) gathering.unread.add(file.path);
  return opened;
}

function build<T>(gathering: Gathering, { file, node }: Opened, make: (reading: Reading) => T): T {
  const reading = startReading(file, gathering.known);
  const made = make(reading);
  gathering.diagnostics.push(...reading.diagnostics, ...missingIn(reading));
  if (reading.gaps.length > 0) gathering.unread.add(file.path);
  if (node) gathering.waivers.push(...waiversOf(node, { file: file.path, start: 0, end: file.text.length }));
  return made;
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
      message: `${places.length === 1 ? 'One text of this file has' : `${places.length} texts of this file have`} no \`${language}\``,
      at: first,
      related: others.map((at) => ({ message: 'Another one', at })),
      help: `Give a text in every language: \`{ ${main}: …, ${language}: … }\`.`,
    });
  });
}
