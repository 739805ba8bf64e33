import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isolated } from '../../../src/charts/index.ts';

describe('text that someone typed, beside our own words', () => {
  it('stays as it is if it has no direction marks', () => {
    for (const text of ['Harbour Lane', '', 'Žofia, табло 3', '=1+1 <b>']) {
      expect(isolated(text)).toBe(text);
    }
  });

  it('is isolated if it has any', () => {
    expect(isolated('לוח 3')).toBe('\u2068לוח 3\u2069');
    expect(isolated('\u202eabc')).toBe('\u2068\u202eabc\u2069');
  });

  // Unicode Annex 9, BD9: a closing mark closes the last open isolation.
  it('closes every isolation that it opens, and no other', () => {
    const signs = fc.constantFrom('a', '\u202e', '\u2066', '\u2067', '\u2068', '\u2069', '\u2029');
    fc.assert(
      fc.property(fc.array(signs), (list) => {
        const text = isolated(list.join(''));
        if (!/[\u2066-\u2069\u202e]/.test(text)) return;
        let depth = 0;
        [...text].forEach((sign, n) => {
          if (/[\u2066-\u2068]/.test(sign)) depth += 1;
          if (sign === '\u2069') depth -= 1;
          expect(depth > 0).toBe(n < text.length - 1);
        });
        expect(text).not.toMatch(/\u2029/);
      }),
    );
  });
});
