// The words of the interface: the same keys and places in every language, numbers and dates as people read them.

import { describe, expect, it } from 'vitest';
import { voiceFor } from '../../src/emit/voice.js';
import { english } from '../../src/emit/words/en.js';
import { spanish } from '../../src/emit/words/es.js';
import { dateIn, markupFor, numberIn, wordFor } from '../../src/emit/words/interface.js';

const places = (text: string): readonly string[] =>
  [...text.matchAll(/\{(\w+)\}/g)].map(([, name = '']) => name).sort();

describe('the interface', () => {
  it('has every key in Spanish, with the same places, and not the English words', () => {
    expect(Object.keys(spanish).sort()).toEqual(Object.keys(english).sort());
    for (const [key, text] of Object.entries(english)) {
      expect([key, places(spanish[key as keyof typeof english])]).toEqual([key, places(text)]);
    }
    const same = Object.entries(english).filter(
      ([key, text]) => text.length > 3 && spanish[key as keyof typeof english] === text,
    );
    expect(same.map(([key]) => key)).toEqual(['gauge']);
  });

  // signal words in Spanish: ANSI Z535.6-2011 (R2017) annex with translations, from memory
  it('says the four signal words of the standard', () => {
    const severities = ['will-kill', 'may-kill', 'may-injure', 'damage'] as const;
    expect(severities.map((key) => wordFor('en', key))).toEqual(['DANGER', 'WARNING', 'CAUTION', 'NOTICE']);
    expect(severities.map((key) => wordFor('es', key))).toEqual(['PELIGRO', 'ADVERTENCIA', 'PRECAUCIÓN', 'AVISO']);
  });

  it('escapes what goes into its places, and refuses to leave one empty', () => {
    expect(markupFor('en', 'source', { source: '<b>' }).html).toBe('Source: &lt;b&gt;');
    expect(() => wordFor('en', 'source')).toThrow('`source` lack their `source`');
  });

  it('writes limits in Spanish without touching a digit', () => {
    expect(numberIn('es', '3.63 to 4.17\u00a0V')).toBe('3.63 a 4.17\u00a0V');
    expect(numberIn('es', 'at least 2.5\u00a0V')).toBe('al menos 2.5\u00a0V');
    expect(numberIn('es', 'at most 3\u00a0%')).toBe('como máximo 3\u00a0%');
    expect(numberIn('es', '17\u00a0ft 5\u00a0in to 18\u00a0ft')).toBe('17\u00a0ft 5\u00a0in a 18\u00a0ft');
    expect(numberIn('es', 'at least 100\u00a0°F (at least 37.8\u00a0°C)')).toBe(
      'al menos 100\u00a0°F (al menos 37.8\u00a0°C)',
    );
    expect(numberIn('es', '-12 to -3\u00a0deg')).toBe('-12 a -3°');
    expect(numberIn('es', '100\u00a0degF to 120\u00a0degF')).toBe('100\u00a0°F a 120\u00a0°F');
    expect(numberIn('en', '3.63 to 4.17\u00a0V')).toBe('3.63 to 4.17\u00a0V');
  });

  it('writes dates in words and leaves anything else', () => {
    expect(dateIn('en', '2026-09-02')).toBe('2\u00a0Sep\u00a02026');
    expect(dateIn('es', '2027-01-15')).toBe('15\u00a0ene\u00a02027');
    expect(dateIn('en', 'soon')).toBe('soon');
  });
});

describe('a voice', () => {
  it('marks words that the book lacks in the language of the page', () => {
    const voice = voiceFor('es', 'en');
    expect(voice.say({ en: 'Engine', es: 'Motor' }).html).toBe('Motor');
    expect(voice.say({ en: 'Engine' }).html).toBe('<span lang="en">Engine</span>');
    expect(voice.has({ en: 'Engine' })).toBe(false);
  });

  it('keeps a unit on the line of its number', () => {
    const voice = voiceFor('en', 'en');
    for (const shown of ['3.63 to 4.17 V', '3.63 to 4.17\u00a0V'])
      expect(voice.number(shown)).toBe('3.63 to 4.17\u00a0V');
    expect(voice.number('0.9 ± 0.2 V')).toBe('0.9 ±\u00a00.2\u00a0V');
    expect(voice.number('60 s')).toBe('60\u00a0s');
    expect(voice.number('at least 2.5 V')).toBe('at least 2.5\u00a0V');
  });
});
