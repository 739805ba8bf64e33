/**
 * Where a number is from. `interpolated`: from the pattern's measured numbers at that speed. `by
 * window`: from the line's measured number at another speed and the computed window between them.
 */
export const NUMBER_SOURCES = ['computed', 'measured', 'interpolated', 'by window'] as const;
export type NumberSource = (typeof NUMBER_SOURCES)[number];
