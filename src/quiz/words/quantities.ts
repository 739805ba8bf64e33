/** Numbers, errors and lengths in words. */

import {
  type Decimal,
  formatDecimal,
  minus,
  roundTo,
  toDecimal,
  toNumber,
} from '../../charts/index.ts';

export type Units = 'in' | 'cm';

/** "0.2 high", "0.1 low", "exact". */
export function errorWords(error: Decimal): string {
  if (error === 0) return 'exact';
  return `${formatDecimal(Math.abs(error) as Decimal)} ${error > 0 ? 'high' : 'low'}`;
}

/** A length to the half inch or whole centimetre. */
export function lengthWords(metres: number, units: Units): string {
  if (units === 'cm') return `${Math.round(metres * 100)} cm`;
  const inches = Math.round((metres / 0.0254) * 2) / 2;
  return inches > 0 && inches <= 1 ? `${inches} inch` : `${inches} inches`;
}

/** A speed in units that go with the lengths: miles per hour with inches, else meters per second. */
export function speedWords(metresPerSecond: number, units: Units): string {
  if (units === 'cm') return `${Math.round(metresPerSecond * 10) / 10} m/s`;
  return `${Math.round((metresPerSecond / 0.44704) * 10) / 10} mph`;
}

/** Signed movement of a number from medium, as printed: "+0.2", "−0.1", "same". */
export function movementWords(printed: Decimal, medium: Decimal): string {
  const by = minus(printed, medium);
  return by === 0 ? 'same' : formatDecimal(by, 1, true);
}

/** As the app says it: to the hundredth, halves away from zero, so that steps down and up are alike. */
export function inHundredths(value: Decimal): Decimal {
  return roundTo(toNumber(value), toDecimal(0.01));
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
