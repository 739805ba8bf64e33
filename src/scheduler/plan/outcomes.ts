/**
 * What a plan assumes of future answers. The shares are ours: common practice, no source. The
 * players of `npm run bench` have other shares.
 */

import type { Outcome } from '../../cards/index.ts';

interface Share {
  readonly outcome: Outcome;
  readonly share: number;
}

/** Of right answers. */
export const RIGHT_OUTCOMES: readonly Share[] = [
  { outcome: 'rattled', share: 0.2 },
  { outcome: 'pocketed', share: 0.65 },
  { outcome: 'dead center', share: 0.15 },
];

/** A first answer is right this often: the line was shown a few questions earlier. */
const FIRST_RIGHT = 0.8;

/** Of first answers. */
export const FIRST_OUTCOMES: readonly Share[] = [
  { outcome: 'off', share: 1 - FIRST_RIGHT },
  ...RIGHT_OUTCOMES.map(({ outcome, share }) => ({ outcome, share: FIRST_RIGHT * share })),
];
