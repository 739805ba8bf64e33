/** Does a line bank, is it thin, or is it a kick only: said from its make windows and nothing else. */

import { type MakeWindow, SPEEDS, type Speed } from '../../table/index.ts';

export const VERDICTS = ['banks', 'thin', 'kick only'] as const;
export type VerdictKind = (typeof VERDICTS)[number];

export interface Verdict {
  readonly kind: VerdictKind;
  /** One sentence with the numbers. */
  readonly reason: string;
  /** The speed with the widest window; null if nothing drops at any. */
  readonly best: Speed | null;
}

/**
 * Widest window, diamonds of aim, from which on a line banks: what a number is printed to, so that
 * somewhere in it a printed number drops. Our own choice; no published figure is known to us.
 */
export const BANKS = 0.1;
/** Below this nobody aims: 1 cm at the sights of a 9 ft table. Our own choice. */
export const THIN = 0.03;

/** @param windows per speed; null where nothing drops, or there is no line */
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
  // Rounded down: what is called less than a tenth is not to read 0.100.
  const said = (Math.floor(width * 1000) / 1000).toFixed(3);
  const widest = `At ${best} speed, its best, ${said} of a diamond of aim drops`;
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
