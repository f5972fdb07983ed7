// A book of machines and headers alone, for what asks nothing else of it.

import type { Book, Header, Machine } from '../../src/model/book.js';
import type { Located, Span } from '../../src/text/source.js';

const at: Span = { file: 'small', start: 0, end: 0 };
const located = (value: string): Located<string> => ({ value, at });
const text = { at, languages: new Map() };

export interface SmallMachine {
  readonly headers: readonly string[];
  readonly optional?: readonly string[];
  readonly standard?: readonly string[];
  readonly serials?: readonly [string, string];
  readonly software?: Readonly<Record<string, readonly string[]>>;
}

/** `headers` maps each id to its type. */
export function smallBook(
  machines: Readonly<Record<string, SmallMachine>>,
  headers: Readonly<Record<string, string>>,
): Book {
  const { settings } = emptyBook;
  return {
    ...emptyBook,
    settings,
    machines: new Map(Object.entries(machines).map(([id, parts]) => [id, machineOf(id, parts)])),
    headers: new Map(Object.entries(headers).map(([id, type]) => [id, headerOf(id, type)])),
  };
}

function machineOf(id: string, parts: SmallMachine): Machine {
  const { optional = [], standard = [], serials, software = {} } = parts;
  return {
    id,
    file: `machines/${id}.yaml`,
    name: text,
    headers: parts.headers.map(located),
    options: [
      ...optional.map((option) => ({ id: option, is: 'optional' as const, at })),
      ...standard.map((option) => ({ id: option, is: 'standard' as const, at })),
    ],
    ...(serials ? { serials: { from: serials[0], to: serials[1], at } } : {}),
    software: Object.entries(software).map(([module, versions]) => ({
      module: located(module),
      versions: versions.map(located),
    })),
    words: new Map(),
    parameters: new Map(),
    agree: [],
    at,
  };
}

function headerOf(id: string, type: string): Header {
  return { id, file: `headers/${id}.yaml`, name: text, type: located(type), parameters: new Map(), agree: [], at };
}

const emptyBook: Book = {
  settings: {
    title: text,
    owner: text,
    phone: located(''),
    url: located(''),
    languages: ['en'],
    jobs: [],
    units: 'us',
    decision: 'guarded',
    at,
  },
  machines: new Map(),
  headers: new Map(),
  instruments: new Map(),
  tools: new Map(),
  crops: new Map(),
  states: new Map(),
  events: new Map(),
  physics: [],
  hazards: new Map(),
  bundles: new Map(),
  rules: [],
  ends: new Map(),
  terms: [],
  fleet: [],
  issued: [],
  procedures: new Map(),
  figures: new Set(),
  waivers: [],
  unread: new Set(),
};
