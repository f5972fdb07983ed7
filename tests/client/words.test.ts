// The words of the page of jobs: the same keys and places in both languages, and translated.

import { describe, expect, it } from 'vitest';
import { jobWords } from '../../site/client/job/words.js';
import { jobsWords } from '../../site/client/jobs-page/words.js';

const places = (text: string): readonly string[] =>
  [...text.matchAll(/\{(\w+)\}/g)].map(([, name = '']) => name).sort();

describe('the words of jobs', () => {
  for (const [name, tables] of [
    ['the page of jobs', jobsWords],
    ['what is kept from any page', jobWords],
  ] as const) {
    it(`are in Spanish with the same places, and not the English ones: ${name}`, () => {
      const { en = {}, es = {} } = tables as Readonly<Record<string, Readonly<Record<string, string>>>>;
      expect(Object.keys(es).sort()).toEqual(Object.keys(en).sort());
      expect(Object.keys(en).length).toBeGreaterThan(10);
      for (const [key, text] of Object.entries(en)) {
        expect([key, places(es[key] ?? '').join()]).toEqual([key, places(text).join()]);
        if (text.replaceAll(/\{\w+\}/g, '').length > 8) expect(es[key]).not.toBe(text);
      }
    });
  }
});
