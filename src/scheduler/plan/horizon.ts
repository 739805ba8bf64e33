/** The remaining days, in steps of the plan. */

/** Most steps of a plan; with more days left, each stands for several days. */
const MOST_STEPS = 72;

export interface Horizon {
  /** Days from today to the day that counts. */
  readonly days: number;
  readonly steps: number;
  /** Days from today to a step; `offsets[steps]` is the day itself, on which nothing is asked. */
  readonly offsets: readonly number[];
  /** Days for which a step stands: it asks what all of them ask. */
  readonly stride: number;
}

/** @param days from today to the day that counts; 0 or less leaves no step */
export function horizonOf(days: number): Horizon {
  const left = Math.max(0, Math.floor(days) || 0);
  const stride = Math.max(1, Math.ceil(left / MOST_STEPS));
  const steps = Math.ceil(left / stride);
  const offsets = Array.from({ length: steps + 1 }, (_, step) => Math.min(left, step * stride));
  return { days: left, steps, offsets, stride };
}
