/** How long the harnesses run: a little in every test run, long by `npm run faults`. */

/** Times the browser is killed while questions are answered in the long run; null in a short one. */
const LONG = process.env.THROUGHLINE_KILLS ? Number(process.env.THROUGHLINE_KILLS) : null;

/** Of what is random: another seed is another run. */
export const SEED = Number(process.env.THROUGHLINE_SEED ?? 7);

/** Far longer than a kill and a start take on a busy machine, milliseconds. */
export const A_KILL = 120_000;

/** Rounds of a harness: a few, or a part of the long run's number. */
export function rounds(few: number, part: number): number {
  return LONG === null ? few : Math.max(few, Math.ceil(LONG / part));
}

export function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
