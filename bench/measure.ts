/** Times contenders against each other in one run: ratios carry over to other machines, seconds do not. */

export interface Contender {
  readonly name: string;
  /** Does the whole work once and returns the number of units done. */
  readonly run: () => number;
}

export interface Rate {
  readonly name: string;
  /** Units per second: median over the rounds. */
  readonly perSecond: number;
}

const ROUNDS = 7;

/** Runs contenders in turn, round by round, so that a busy moment of the machine affects all. */
export function compare(contenders: readonly Contender[]): readonly Rate[] {
  const rates = contenders.map(() => [] as number[]);
  for (const contender of contenders) contender.run();
  for (let round = 0; round < ROUNDS; round++) {
    contenders.forEach((contender, n) => {
      const start = performance.now();
      const units = contender.run();
      rates[n]?.push((1000 * units) / (performance.now() - start));
    });
  }
  return contenders.map(({ name }, n) => ({ name, perSecond: median(rates[n] ?? []) }));
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
}
