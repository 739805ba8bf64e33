/**
 * How close the model must come to each outside reference, in one place, with the reason.
 * README's accuracy table is checked against the measured values (tests/readme.test.ts).
 */
export const TOLERANCE = {
  /** Both sides are exact formulas in doubles. */
  closedForm: 1e-9,
  /** Published to two decimals of a degree. */
  degreesTwoDecimals: 0.005,
  /** The integration's own error bound (cushion.ts), with its sum over a few steps. */
  impact: 2e-6,
} as const;
