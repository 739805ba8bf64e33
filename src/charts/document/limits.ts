/** How much a chart can hold. A file or a link that holds more is not a chart. */

/** A chart of all patterns at the finest step, 0.05, has just under 1000 lines. */
export const MOST_LINES = 2000;
/** More revisions than any chart has had so far. */
export const MOST_REVISIONS = 500;
/** The most characters in a remark. */
export const LONGEST_REMARK = 200;
