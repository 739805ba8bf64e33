/** The days that are left, in steps on which one may ask. */

/** Most steps that a plan looks at; with more days left each stands for several days. */
const MOST_STEPS = 72;

export interface Horizon {
  /** Days from today to the day that counts. */
  readonly days: number;
  readonly steps: number;
  /** Days from today to a step; `offsets[steps]` is the day itself, on which nothing is asked. */
  readonly offsets: readonly number[];
  /** Days for which a step stands: what is asked on all of them is asked on it. */
  readonly stride: number;
}

/** @param days from today to the day that counts; none left if it is not above 0 */
export function horizonOf(days: number): Horizon {
  const left = Math.max(0, Math.floor(days) || 0);
  const stride = Math.max(1, Math.ceil(left / MOST_STEPS));
  const steps = Math.ceil(left / stride);
  const offsets = Array.from({ length: steps + 1 }, (_, step) => Math.min(left, step * stride));
  return { days: left, steps, offsets, stride };
}
