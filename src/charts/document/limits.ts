/** How much a chart can hold. A file or a link that holds more is not a chart. */

/**
 * The most lines in a chart. A chart of all patterns at the finest step, 0.05, has just under 1000.
 */
export const MOST_LINES = 2000;
/** The most revisions in a chart: more than any chart has had so far. */
export const MOST_REVISIONS = 500;
/** The most characters in a remark. */
export const LONGEST_REMARK = 200;
