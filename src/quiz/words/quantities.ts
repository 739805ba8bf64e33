/** Words for numbers, errors and lengths. */

import {
  type Decimal,
  formatDecimal,
  minus,
  roundTo,
  toDecimal,
  toNumber,
} from '../../charts/index.ts';

export type Units = 'in' | 'cm';

/** Returns, for example, "0.2 high", "0.1 low" or "exact". */
export function errorWords(error: Decimal): string {
  if (error === 0) return 'exact';
  return `${formatDecimal(Math.abs(error) as Decimal)} ${error > 0 ? 'high' : 'low'}`;
}

/** Returns a length in words, rounded to half an inch or to a whole centimeter. */
export function lengthWords(metres: number, units: Units): string {
  if (units === 'cm') return `${Math.round(metres * 100)} cm`;
  const inches = Math.round((metres / 0.0254) * 2) / 2;
  return inches > 0 && inches <= 1 ? `${inches} inch` : `${inches} inches`;
}

/**
 * Returns a speed in words: in miles per hour if lengths are in inches, otherwise in meters per
 * second.
 */
export function speedWords(metresPerSecond: number, units: Units): string {
  if (units === 'cm') return `${Math.round(metresPerSecond * 10) / 10} m/s`;
  return `${Math.round((metresPerSecond / 0.44704) * 10) / 10} mph`;
}

/**
 * Returns how far a printed number is from the one at medium speed, such as "+0.2", "−0.1" or
 * "same".
 */
export function movementWords(printed: Decimal, medium: Decimal): string {
  const by = minus(printed, medium);
  return by === 0 ? 'same' : formatDecimal(by, 1, true);
}

/**
 * Rounds to the hundredth, as the app shows it. Halves are rounded away from zero, so that steps
 * down and steps up look alike.
 */
export function inHundredths(value: Decimal): Decimal {
  return roundTo(toNumber(value), toDecimal(0.01));
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
