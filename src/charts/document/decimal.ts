/**
 * Exact decimals for the numbers that people say and write. They are whole counts of
 * ten-thousandths of a diamond. So 0.1 + 0.2 is 0.3, and a quarter of the strictest tolerance
 * (0.05) is still a whole count.
 */

declare const decimal: unique symbol;
/** A whole count of ten-thousandths. */
export type Decimal = number & { readonly [decimal]: true };

const UNIT = 10_000;

/** Returns the ten-thousandth nearest to a value; halves are rounded away from zero. */
export function toDecimal(value: number): Decimal {
  if (!Number.isFinite(value)) throw new RangeError(`not a finite number: ${value}`);
  const units = Math.sign(value) * Math.round(Math.abs(value) * UNIT);
  return (units === 0 ? 0 : units) as Decimal;
}

export function toNumber(value: Decimal): number {
  return value / UNIT;
}

export function minus(a: Decimal, b: Decimal): Decimal {
  return (a - b) as Decimal;
}

export function plus(a: Decimal, b: Decimal): Decimal {
  return (a + b) as Decimal;
}

export function size(a: Decimal): Decimal {
  return Math.abs(a) as Decimal;
}

/** Returns the nearest multiple of a printed step; halves are rounded away from zero. */
export function roundTo(value: number, step: Decimal): Decimal {
  if (!Number.isFinite(value)) throw new RangeError(`not a finite number: ${value}`);
  // Rounds to whole billionths first, so that a decimal half like 0.05 is an exact half.
  const billionths = Math.round(Math.abs(value) * 1e9);
  const width = step * 100_000;
  const steps = Math.floor((2 * billionths + width) / (2 * width));
  return (steps === 0 ? 0 : Math.sign(value) * steps * step) as Decimal;
}

/**
 * Returns a value as plain decimal text with at least `places` decimals, and more if the value
 * needs them.
 * @param signed whether to write + before positive values
 */
export function formatDecimal(value: Decimal, places = 1, signed = false): string {
  const whole = Math.floor(Math.abs(value) / UNIT);
  const digits = String(Math.abs(value) % UNIT).padStart(4, '0');
  const needed = digits.replace(/0+$/, '').padEnd(places, '0');
  const sign = value < 0 ? '−' : signed && value > 0 ? '+' : '';
  return needed === '' ? `${sign}${whole}` : `${sign}${whole}.${needed}`;
}

export type DecimalError = 'empty' | 'not a number' | 'too long' | 'too fine';

export type ParsedDecimal =
  | { readonly ok: true; readonly value: Decimal }
  | { readonly ok: false; readonly error: DecimalError };

/**
 * Parses a typed number: digits with a point or a comma and an optional sign. It may have at most
 * three decimals and eight characters.
 */
export function parseDecimal(text: string): ParsedDecimal {
  return parseTo(3, text);
}

/** Parses text as `formatDecimal` writes it, with up to four decimals. */
export function parseWholeDecimal(text: string): ParsedDecimal {
  return parseTo(4, text);
}

function parseTo(places: number, text: string): ParsedDecimal {
  const plain = text.trim().replace(',', '.').replace('−', '-');
  if (plain === '') return { ok: false, error: 'empty' };
  if (plain.length > 8) return { ok: false, error: 'too long' };
  const match = /^([+-]?)(\d*)(?:\.(\d*))?$/.exec(plain);
  const whole = match?.[2] ?? '';
  const part = match?.[3] ?? '';
  if (!match || whole + part === '') return { ok: false, error: 'not a number' };
  if (part.length > places) return { ok: false, error: 'too fine' };
  const units = Number(whole || '0') * UNIT + Number(part.padEnd(4, '0'));
  return { ok: true, value: (match[1] === '-' && units > 0 ? -units : units) as Decimal };
}
