// The layers of src/: a file imports only from layers above its own in the list, and never in a circle. Files stay in io.ts.

import { dirname, join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';
import { filesOf } from './rules/page.js';

const source = join(import.meta.dirname, '../src');

/** What each layer may import from, besides itself. */
const allowed: Readonly<Record<string, readonly string[]>> = {
  text: [],
  calc: [],
  diagnostic: ['text'],
  model: ['text', 'calc'],
  read: ['text', 'calc', 'diagnostic', 'model'],
  resolve: ['text', 'calc', 'diagnostic', 'model'],
  order: ['text', 'calc', 'model'],
  rules: ['text', 'calc', 'diagnostic', 'model', 'order'],
  history: ['text', 'calc', 'model'],
  emit: ['text', 'calc', 'model', 'order', 'diagnostic'],
  compile: ['text', 'calc', 'diagnostic', 'model', 'read', 'resolve', 'order', 'rules', 'emit'],
  build: ['text', 'calc', 'diagnostic', 'model', 'order', 'history', 'emit', 'compile'],
  guard: ['text', 'calc', 'diagnostic', 'model', 'read', 'rules', 'compile'],
  fix: ['text', 'diagnostic', 'compile'],
  io: ['text', 'diagnostic'],
  commands: [
    'text',
    'calc',
    'diagnostic',
    'model',
    'read',
    'resolve',
    'order',
    'rules',
    'history',
    'emit',
    'compile',
    'build',
    'guard',
    'fix',
    'io',
  ],
};

const files = new Map([...filesOf(source)].filter(([path]) => path.endsWith('.ts')));
const layerOf = (path: string): string => path.split('/')[0]?.replace(/\.ts$/, '') ?? '';

function importsOf(path: string): readonly string[] {
  const text = files.get(path) ?? '';
  return [...text.matchAll(/(?:from|import)\s*\(?\s*'([^']+)'/g)].map(([, name = '']) => name);
}

function within(path: string, name: string): string {
  return relative(source, join(source, dirname(path), name)).replace(/\.js$/, '.ts');
}

describe('layers', () => {
  it('are the only folders of src/', () => {
    const known = [...Object.keys(allowed), 'starter'];
    expect([...new Set([...files.keys()].map(layerOf))].filter((layer) => !known.includes(layer))).toEqual([]);
  });

  it('import from above only', () => {
    const wrong = [...files.keys()].flatMap((path) =>
      importsOf(path)
        .filter((name) => name.startsWith('.'))
        .map((name) => within(path, name))
        .filter((target) => layerOf(target) !== layerOf(path))
        .filter((target) => !(allowed[layerOf(path)] ?? []).includes(layerOf(target)))
        .map((target) => `${path} -> ${target}`),
    );
    expect(wrong).toEqual([]);
  });

  it('have no cycle of imports of values', () => {
    const edges = new Map(
      [...files].map(([path, text]) => {
        const values = [...text.matchAll(/^import (?!type )[^;]*?from '(\.[^']+)'/gm)].map(([, name = '']) =>
          within(path, name),
        );
        return [path, values];
      }),
    );
    const state = new Map<string, 'open' | 'shut'>();
    const cycles: string[] = [];
    const visit = (path: string, trail: readonly string[]): void => {
      if (state.get(path) === 'open') cycles.push([...trail.slice(trail.indexOf(path)), path].join(' -> '));
      if (state.has(path)) return;
      state.set(path, 'open');
      for (const target of edges.get(path) ?? []) visit(target, [...trail, path]);
      state.set(path, 'shut');
    };
    for (const path of files.keys()) visit(path, []);
    expect(cycles).toEqual([]);
  });

  it('leave files, clock, chance and process to io and the commands', () => {
    const banned = [
      // Packing bytes and digesting them are calculations; a library may be loaded where it is first needed.
      /'node:(?!zlib'|crypto'|module')/,
      /\brandom\w*\(/,
      /\bprocess\./,
      /\bDate\.now\b/,
      /\bnew Date\(\)/,
      /Math\.random/,
      /\bconsole\./,
      /\beval\(/,
      /new Function\b/,
    ];
    const wrong = [...files]
      .filter(([path]) => !['io', 'commands'].includes(layerOf(path)))
      .flatMap(([path, text]) => {
        const code = text.replace(/^\s*(?:\/\/|\*|\/\*).*$/gm, '');
        return banned.filter((ban) => ban.test(code)).map((ban) => `${path}: ${ban}`);
      });
    expect(wrong).toEqual([]);
  });

  it('let the browser use calc, the search, the telling of rigs and the pictures that it shares with the build, and nothing else', () => {
    const client = [...filesOf(join(source, '../site/client'))].filter(([path]) => path.endsWith('.ts'));
    const wrong = client.flatMap(([path, text]) =>
      [...text.matchAll(/from '(\.[^']+)'/g)]
        .map(([, name = '']) => relative(source, join(source, '../site/client', dirname(path), name)))
        .filter(
          (target) =>
            !target.startsWith('../site/') &&
            !/^(?:calc|emit\/search|emit\/offline\/shapes|emit\/walk\/walk-shape|emit\/printed-units|emit\/rig-match|emit\/page-serials|model\/serials|model\/job-record|emit\/pictures|emit\/html)\b/.test(
              target,
            ),
        )
        .map((target) => `${path} -> ${target}`),
    );
    expect(client.length).toBeGreaterThan(3);
    expect(wrong).toEqual([]);
  });

  it('keep calc free of packages, so that it runs in the browser as it is', () => {
    const wrong = [...files.keys()]
      .filter((path) => layerOf(path) === 'calc')
      .flatMap((path) => importsOf(path).filter((name) => !name.startsWith('.')));
    expect(wrong).toEqual([]);
  });
});
