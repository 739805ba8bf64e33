/**
 * How close the model must come to each outside reference, in one place, with the reason.
 * The table in docs/numbers.md is checked against the measured values (tests/accuracy.test.ts).
 */
export const TOLERANCE = {
  /** Both sides are exact formulas in doubles. */
  closedForm: 1e-9,
  /** Published to two decimals of a degree. */
  degreesTwoDecimals: 0.005,
  /** Error bound of the integration: 1e-6 a step (cushion.ts), a slip stopped 1e-4 early (contacts.ts). */
  impact: 3e-5,
} as const;
