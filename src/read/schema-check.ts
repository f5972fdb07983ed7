// Holds a YAML tree against the schema of its kind of file. Finds where it differs; the words stand in schema-faults.ts.

import type { ErrorObject } from 'ajv';
import type { Diagnostic } from '../diagnostic/diagnostic.js';
import { nearestNames } from '../diagnostic/nearest.js';
import type { SourceFile } from '../text/source.js';
import type { Fault, KnownKeys } from './schema-fault.js';
import { describeFault } from './schema-faults.js';
import { placeAt, plainValue } from './schema-places.js';
import { type FileKind, schemaTexts } from './schemas.js';
import type { YamlNode } from './tree.js';
import { validatorOf } from './validators.js';

/** Every place where the tree differs from its schema, one diagnostic for each fault. */
export function checkShape(file: SourceFile, top: YamlNode, kind: FileKind): readonly Diagnostic[] {
  const validate = validatorOf(kind);
  if (validate(plainValue(top))) return [];
  const faults = (validate.errors ?? []).filter(isCause).map((error) => faultOf(top, error));
  return withoutEchoes(faults).map((fault) => describeFault(fault, { file, kind, known: knownKeys }));
}

// these only say that a schema inside them failed, and that one has its own error
const wrappers = new Set(['if', 'propertyNames']);

function isCause(error: ErrorObject): boolean {
  return !wrappers.has(error.keyword);
}

function faultOf(top: YamlNode, error: ErrorObject): Fault {
  const place = placeAt(top, error.instancePath);
  return {
    place,
    keyword: error.keyword,
    params: error.params as Fault['params'],
    schema: (error.parentSchema ?? {}) as Fault['schema'],
    ...(error.propertyName === undefined ? {} : { propertyName: error.propertyName }),
  };
}

/** Leaves out what another fault of the same map already says: a misspelt key is also a missing one. */
function withoutEchoes(faults: readonly Fault[]): readonly Fault[] {
  const kept: Fault[] = [];
  const seen = new Set<string>();
  for (const fault of faults) {
    const pointer = JSON.stringify([fault.place.path, fault.keyword, fault.params]);
    if (seen.has(pointer)) continue;
    seen.add(pointer);
    kept.push(fault);
  }
  const echoed = new Set<Fault>();
  const standsFor = new Map<Fault, string>();
  for (const [place, group] of groupByPlace(kept)) {
    if (place.node.kind !== 'map') continue;
    const missing = group.filter(({ keyword }) => keyword === 'required' || keyword === 'dependentRequired');
    for (const unknown of group.filter(({ keyword }) => keyword === 'additionalProperties')) {
      const open = missing.filter((fault) => !echoed.has(fault));
      const key = unknown.params.additionalProperty ?? '';
      const names = open.map(({ params }) => params.missingProperty ?? '');
      const near = nearestNames(key, names)[0] ?? names[0];
      const echo = open.find(({ params }) => params.missingProperty === near);
      if (echo) echoed.add(echo);
      if (near !== undefined) standsFor.set(unknown, near);
    }
  }
  return kept
    .filter((fault) => !echoed.has(fault))
    .map((fault) => {
      const missing = standsFor.get(fault);
      return missing === undefined ? fault : { ...fault, standsFor: missing };
    });
}

function groupByPlace(faults: readonly Fault[]): Map<Fault['place'], Fault[]> {
  const groups = new Map<string, Fault[]>();
  for (const fault of faults) {
    const key = JSON.stringify(fault.place.path);
    groups.set(key, [...(groups.get(key) ?? []), fault]);
  }
  return new Map([...groups.values()].flatMap((group) => (group[0] ? [[group[0].place, group] as const] : [])));
}

let known: KnownKeys | undefined;

/** By key, the titles of the maps of a schema that have it: so a key in the wrong place can be told where it belongs. */
const knownKeys = (kind: FileKind): ReadonlyMap<string, readonly string[]> => {
  known ??= collectKeys();
  return known.get(kind) ?? new Map();
};

function collectKeys(): KnownKeys {
  const kinds = Object.keys(schemaTexts).filter((name): name is FileKind => name !== 'common');
  return new Map(
    kinds.map((kind) => {
      const titles = new Map<string, string[]>();
      gatherKeys(JSON.parse(schemaTexts[kind]), titles);
      return [kind, titles];
    }),
  );
}

function gatherKeys(schema: unknown, titles: Map<string, string[]>): void {
  if (Array.isArray(schema)) for (const part of schema) gatherKeys(part, titles);
  if (typeof schema !== 'object' || schema === null || Array.isArray(schema)) return;
  const { title, properties } = schema as { title?: string; properties?: Record<string, unknown> };
  for (const key of Object.keys(properties ?? {})) {
    if (title) titles.set(key, [...new Set([...(titles.get(key) ?? []), title])]);
  }
  for (const [key, part] of Object.entries(schema)) if (key !== 'examples') gatherKeys(part, titles);
}
