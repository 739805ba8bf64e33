import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Decimal,
  formatDecimal,
  minus,
  parseDecimal,
  plus,
  roundTo,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';

describe('decimals', () => {
  it('are exact where doubles are not', () => {
    // IEEE 754: 0.1 + 0.2 is not 0.3 in binary.
    expect(0.1 + 0.2).not.toBe(0.3);
    expect(plus(toDecimal(0.1), toDecimal(0.2))).toBe(toDecimal(0.3));
    expect(minus(toDecimal(2.3), toDecimal(2.2))).toBe(toDecimal(0.1));
  });

  it('parse what they format', () => {
    fc.assert(
      fc.property(thousandths, fc.boolean(), (value, signed) => {
        const text = formatDecimal(value, 1, signed);
        expect(parseDecimal(text)).toEqual({ ok: true, value });
        expect(parseDecimal(text.replace('.', ','))).toEqual({ ok: true, value });
      }),
    );
  });

  it.each([
    ['2', 2],
    ['2.', 2],
    ['.5', 0.5],
    [',5', 0.5],
    ['2,35', 2.35],
    [' 2.350 ', 2.35],
    ['-0.1', -0.1],
    ['−0.1', -0.1],
    ['+0,1', 0.1],
    ['-0', 0],
    ['00.10', 0.1],
  ])('parse %j as %d', (text, value) => {
    const parsed = parseDecimal(text);
    expect(parsed.ok && toNumber(parsed.value)).toBe(value);
  });

  it.each([
    ['', 'empty'],
    ['   ', 'empty'],
    ['.', 'not a number'],
    ['-', 'not a number'],
    ['two', 'not a number'],
    ['1.2.3', 'not a number'],
    ['1e3', 'not a number'],
    ['0x10', 'not a number'],
    ['٣', 'not a number'],
    ['Infinity', 'not a number'],
    ['1.2345', 'too fine'],
    ['123456789', 'too long'],
    ['9'.repeat(100_000), 'too long'],
  ])('refuse %j as %s', (text, error) => {
    expect(parseDecimal(text)).toEqual({ ok: false, error });
  });
});

describe('rounding to the printed step', () => {
  it.each([
    [2.04999, 0.1, 2],
    [2.05, 0.1, 2.1],
    [-2.05, 0.1, -2.1],
    [2.024, 0.05, 2],
    [2.025, 0.05, 2.05],
    [0.04, 0.1, 0],
    [-0.04, 0.1, 0],
  ])('rounds %d by %d to %d', (value, step, expected) => {
    const rounded = roundTo(value, toDecimal(step));
    expect(rounded).toBe(toDecimal(expected));
    expect(Object.is(rounded, -0)).toBe(false);
  });

  it('never moves a number by more than half a step', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -8, max: 8, noNaN: true }),
        fc.constantFrom(0.1, 0.05, 0.25),
        (value, step) => {
          const rounded = toNumber(roundTo(value, toDecimal(step)));
          expect(Math.abs(rounded - value)).toBeLessThanOrEqual(step / 2 + 1e-4);
        },
      ),
    );
  });
});

const thousandths = fc.integer({ min: -9_999, max: 9_999 }).map((n) => (n * 10) as Decimal);
