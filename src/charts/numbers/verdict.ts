/**
 * Judges whether a line banks, is thin, or is only a kick. It uses only the line's make windows.
 */

import { type MakeWindow, SPEEDS, type Speed } from '../../table/index.ts';

export const VERDICTS = ['banks', 'thin', 'kick only'] as const;
export type VerdictKind = (typeof VERDICTS)[number];

export interface Verdict {
  readonly kind: VerdictKind;
  /** One sentence that gives the width. */
  readonly reason: string;
  /** The speed with the widest window; null if nothing drops at any speed. */
  readonly best: Speed | null;
}

/**
 * A line banks if its widest window has at least this width, in diamonds of aim. It is the printed
 * step, so that some printed number drops. This is our own choice; no published figure is known.
 */
const BANKS = 0.1;
/**
 * A line with a window at least this wide, in diamonds, is thin. Nobody can aim at less: it is 1 cm
 * at the sights of a 9 ft table. This is our own choice.
 */
const THIN = 0.03;

/**
 * Returns how far to trust a line.
 * @param windows the make window at each speed; null if nothing drops, or if there is no line
 */
export function verdictOf(windows: Readonly<Record<Speed, MakeWindow | null>>): Verdict {
  const best = SPEEDS.reduce<Speed | null>(
    (first, speed) =>
      widthOf(windows[speed]) > (first ? widthOf(windows[first]) : 0) ? speed : first,
    null,
  );
  if (best === null) {
    return { kind: 'kick only', best, reason: 'No aim drops at any of the three speeds.' };
  }
  const width = widthOf(windows[best]);
  // The width is rounded down, so that a width below a tenth does not read 0.100.
  const shown = (Math.floor(width * 1000) / 1000).toFixed(3);
  const widest = `At ${best} speed, its best, ${shown} of a diamond of aim drops`;
  if (width >= BANKS) return { kind: 'banks', best, reason: `${widest}.` };
  if (width >= THIN) {
    return {
      kind: 'thin',
      best,
      reason: `${widest}, less than the ${BANKS} a number is printed to.`,
    };
  }
  return { kind: 'kick only', best, reason: `${widest}, too little to aim at.` };
}

export function widthOf(window: MakeWindow | null): number {
  return window ? window.to - window.from : 0;
}
