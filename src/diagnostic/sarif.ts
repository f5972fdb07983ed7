// Diagnostics as SARIF 2.1.0 (OASIS), the exchange format that code hosts and editors read.

import type { ArtifactLocation, CodeFlow, Fix, Location, Log, PhysicalLocation, Region, Result } from 'sarif';
import type { Span } from '../text/source.js';
import { compareText, type Diagnostic, type Severity } from './diagnostic.js';
import { type Locate, locator, type Sources } from './locate.js';

const levels: Readonly<Record<Severity, 'error' | 'warning' | 'note'>> = {
  error: 'error',
  warning: 'warning',
  hint: 'note',
};

/** The diagnostics in the order given; `catalogue` names every code that a check can report, with its severity. */
export function renderSarif(
  diagnostics: readonly Diagnostic[],
  sources: Sources,
  catalogue: ReadonlyMap<string, Severity>,
): Log {
  const locate = locator(sources);
  const severities = new Map([...diagnostics.map((one) => [one.code, one.severity] as const), ...catalogue]);
  const codes = [...severities.keys()].sort(compareText);
  const rules = codes.map((id) => ({ id, defaultConfiguration: { level: levels[severities.get(id) ?? 'error'] } }));
  return {
    $schema: 'https://json.schemastore.org/sarif-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'stepgauge', rules } },
        columnKind: 'utf16CodeUnits',
        results: diagnostics.map((one) => resultOf(locate, one, codes.indexOf(one.code))),
      },
    ],
  };
}

function resultOf(locate: Locate, diagnostic: Diagnostic, ruleIndex: number): Result {
  const { code, severity, message, help, note, rigs, related, at } = diagnostic;
  const flows = related.some(({ onPath }) => onPath) ? [flowOf(locate, diagnostic)] : [];
  const fixes = (diagnostic.fixes ?? []).map((fix) => fixOf(locate, fix));
  return {
    ruleId: code,
    ruleIndex,
    level: levels[severity],
    message: { text: help ? `${message}\n${help}` : message },
    locations: [{ physicalLocation: physical(locate, at) }],
    relatedLocations: related.map((place, id) => ({
      id,
      physicalLocation: physical(locate, place.at),
      message: { text: place.message },
    })),
    ...(flows.length > 0 ? { codeFlows: flows } : {}),
    ...(fixes.length > 0 ? { fixes } : {}),
    properties: { rigs: [...rigs], ...(note === undefined ? {} : { note }) },
  };
}

/** A path through steps that ends at the diagnostic's own place. */
function flowOf(locate: Locate, diagnostic: Diagnostic): CodeFlow {
  const steps = diagnostic.related.filter(({ onPath }) => onPath);
  const places = [...steps, { at: diagnostic.at, message: diagnostic.message }];
  const locations = places.map(({ at, message }): { location: Location } => ({
    location: { physicalLocation: physical(locate, at), message: { text: message } },
  }));
  return { threadFlows: [{ locations }] };
}

function fixOf(locate: Locate, fix: NonNullable<Diagnostic['fixes']>[number]): Fix {
  const files = [...new Set(fix.edits.map(({ at }) => at.file))];
  return {
    description: { text: fix.title },
    artifactChanges: files.map((file) => ({
      artifactLocation: artifact(file),
      replacements: fix.edits
        .filter(({ at }) => at.file === file)
        .map(({ at, text }) => ({ deletedRegion: region(locate, at), insertedContent: { text } })),
    })),
  };
}

function physical(locate: Locate, at: Span): PhysicalLocation {
  return { artifactLocation: artifact(at.file), region: region(locate, at) };
}

function artifact(file: string): ArtifactLocation {
  return { uri: file.split('/').map(encodeURIComponent).join('/') };
}

function region(locate: Locate, at: Span): Region {
  const { start, end } = locate(at);
  return { startLine: start.line, startColumn: start.column, endLine: end.line, endColumn: end.column };
}
