/** How long the harnesses run: briefly in every test run, long with `npm run faults`. */

/** Kills while answering in a long run; null in a short one. */
const LONG = process.env.THROUGHLINE_KILLS ? Number(process.env.THROUGHLINE_KILLS) : null;

/** Of the random choices: another seed makes another run. */
export const SEED = Number(process.env.THROUGHLINE_SEED ?? 7);

/** Much longer than a kill and a start on a busy machine, milliseconds. */
export const A_KILL = 120_000;

/** Rounds of a harness: a few, or a fraction of the long run's kills. */
export function rounds(few: number, part: number): number {
  return LONG === null ? few : Math.max(few, Math.ceil(LONG / part));
}

export function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
