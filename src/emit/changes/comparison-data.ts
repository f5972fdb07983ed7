// What changed as open data: every change with its words in each language of the book that the interface speaks.
// Its shape is documented by schema/comparison.schema.json.

import type { Change, Comparison, ProcedureChange, Said } from '../../model/comparison.js';
import type { CompiledBook } from '../../model/compiled-book.js';
import type { Words } from '../../model/text.js';
import { type Voice, voiceFor } from '../voice.js';
import { interfaceLanguages } from '../words/interface.js';
import { lineOf, sayChange, saySaid } from './say-change.js';

/** What was compared. */
export interface Side {
  readonly what: 'release' | 'book' | 'data';
  /** Of a release its name, else the file or folder. */
  readonly name: string;
  readonly date?: string;
  /** The digest of the files that a release was made from. */
  readonly sources?: string;
}

type Plain = Readonly<Record<string, unknown>>;

/** The comparison as plain data. */
export function comparisonData(
  { shared, procedures, unchanged }: Comparison,
  { before, after }: { readonly before: Side; readonly after: Side & { readonly book: CompiledBook } },
): Plain {
  const { languages } = after.book;
  const [first = 'en'] = languages;
  const spoken = languages.filter((language) => interfaceLanguages.includes(language));
  const voices = (spoken.length > 0 ? spoken : ['en']).map((language) => voiceFor(language, first));
  return {
    format: 'stepgauge-comparison',
    version: 1,
    old: plainSide(before),
    new: plainSide(after),
    same: shared.length === 0 && procedures.length === 0,
    shared: shared.map((change) => plainChange(change, voices)),
    procedures: procedures.map((procedure) => plainProcedure(procedure, voices)),
    unchanged,
  };
}

function plainSide({ what, name, date, sources }: Side): Plain {
  return { what, name, ...(date !== undefined && { date }), ...(sources !== undefined && { sources }) };
}

function plainProcedure(
  { id, title, how, revision, alert, changes }: ProcedureChange,
  voices: readonly Voice[],
): Plain {
  return {
    id,
    title,
    how,
    revision,
    ...(alert && { alert }),
    changes: changes.map((change) => plainChange(change, voices)),
  };
}

/** A change as plain data, its words in the languages of these voices. */
export function plainChange(change: Change, voices: readonly Voice[]): Plain {
  const { about, how, weight, subject, rigs, before, after, languages, printed } = change;
  const inAll = (write: (voice: Voice) => string): Words =>
    Object.fromEntries(voices.map((voice) => [voice.language, write(voice)]));
  const said = (of: Said): Words => inAll((voice) => saySaid(of, voice, languages));
  return {
    about,
    how,
    weight,
    ...(subject && {
      subject: {
        kind: subject.kind,
        id: subject.id,
        ...(subject.number !== undefined && { number: subject.number }),
        ...(subject.was !== undefined && { was: subject.was }),
        ...(subject.of && { of: { kind: subject.of.kind, id: subject.of.id } }),
      },
    }),
    rigs,
    ...(before && { before: said(before) }),
    ...(after && { after: said(after) }),
    ...(languages && { languages }),
    ...(printed && { printed }),
    message: inAll((voice) => lineOf(sayChange(change, voice))),
  };
}
