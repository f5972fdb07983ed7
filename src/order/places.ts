// Where a step brings a person: its own `at`, and where what it reads or watches is read.

import type { ResolvedCondition, ResolvedInstrument, ResolvedProcedure, ResolvedStep } from '../model/resolved.js';

/** One thing that is read or watched in a step. */
export interface Reading {
  readonly id: string;
  readonly instrument?: ResolvedInstrument;
  readonly place?: string;
  readonly needs: readonly ResolvedCondition[];
  readonly watched: boolean;
}

/** What a step reads, and watches while something is turned. */
export function readingsIn(step: ResolvedStep, procedure: ResolvedProcedure): readonly Reading[] {
  const watched = step.adjust.flatMap((id) => procedure.adjusters.find((each) => each.id === id)?.watch ?? []);
  return [
    ...step.measure.flatMap((id) => readingOf(id, procedure, false)),
    ...watched.filter((id) => !step.measure.includes(id)).flatMap((id) => readingOf(id, procedure, true)),
  ];
}

function readingOf(id: string, procedure: ResolvedProcedure, watched: boolean): readonly Reading[] {
  const value = procedure.values.find((each) => each.id === id);
  if (value) {
    const { instrument, readAt, needs } = value;
    return [{ id, ...(instrument ? { instrument } : {}), ...(readAt ? { place: readAt } : {}), needs, watched }];
  }
  const worksheet = procedure.worksheets.find((each) => each.id === id);
  return (worksheet?.columns ?? []).flatMap(({ instrument }) => {
    const place = instrument?.source.readAt?.value;
    return instrument ? [{ id, instrument, ...(place ? { place } : {}), needs: instrument.needs ?? [], watched }] : [];
  });
}

/**
 * `all`: every place that the person comes to. `stays`: where they may be afterwards. `at` counts, and every place where
 * something is measured; a place where something is only watched counts where nothing else does.
 */
export function placesIn(
  step: ResolvedStep,
  procedure: ResolvedProcedure,
): { readonly all: readonly string[]; readonly stays: readonly string[] } {
  const own = step.place === undefined ? [] : [step.place];
  const readings = readingsIn(step, procedure);
  const placesOf = (watched: boolean): readonly string[] =>
    readings.flatMap(({ place, watched: is }) => (place !== undefined && is === watched ? [place] : []));
  const stays = [...own, ...placesOf(false)];
  const all = [...stays, ...placesOf(true)];
  return { all, stays: stays.length > 0 ? stays : all };
}
