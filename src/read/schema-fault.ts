// One difference between a file and its schema, as the validator found it.

import type { SourceFile } from '../text/source.js';
import type { Wording } from './schema-lookup.js';
import type { Place } from './schema-places.js';
import type { FileKind } from './schemas.js';

/** One difference, as the validator found it. */
export interface Fault {
  readonly place: Place;
  readonly keyword: string;
  readonly params: FaultParts;
  readonly schema: FaultySchema;
  /** Where a key is at fault and not a value. */
  readonly propertyName?: string;
  /** A key that is missing in the same map: an unknown one may stand for it. */
  readonly standsFor?: string;
}

/** What the validator says of the fault, by keyword. */
export interface FaultParts {
  readonly additionalProperty?: string;
  readonly missingProperty?: string;
  /** The key that makes another one necessary. */
  readonly property?: string;
  readonly allowedValues?: readonly unknown[];
  /** The two entries of a list that are equal. */
  readonly i?: number;
  readonly j?: number;
}

export interface FaultySchema extends Wording {
  readonly properties?: Readonly<Record<string, unknown>>;
  readonly enum?: readonly string[];
  readonly type?: string | readonly string[];
  readonly items?: { readonly type?: unknown };
}

/** By kind of file, each key with the titles of the maps that have it. */
export type KnownKeys = ReadonlyMap<FileKind, ReadonlyMap<string, readonly string[]>>;

export interface FaultContext {
  readonly file: SourceFile;
  readonly kind: FileKind;
  readonly known: (kind: FileKind) => ReadonlyMap<string, readonly string[]>;
}
