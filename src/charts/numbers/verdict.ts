/** Judges by its make windows alone whether a line banks, is thin, or is only a kick. */

import { type MakeWindow, SPEEDS, type Speed } from '../../table/index.ts';

export const VERDICTS = ['banks', 'thin', 'kick only'] as const;
export type VerdictKind = (typeof VERDICTS)[number];

export interface Verdict {
  readonly kind: VerdictKind;
  /** One sentence with the width. */
  readonly reason: string;
  /** The speed with the widest window; null if nothing drops at any. */
  readonly best: Speed | null;
}

/**
 * A line banks if its widest window has at least this width, diamonds of aim: the printed step, so that
 * some printed number drops. Our own choice; we know of no published figure.
 */
const BANKS = 0.1;
/** Nobody can aim at less: 1 cm at the sights of a 9 ft table. Our own choice. */
const THIN = 0.03;

/** @param windows by speed; null if nothing drops, or there is no line */
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
  // Rounded down, so that a width of less than a tenth does not read 0.100.
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
