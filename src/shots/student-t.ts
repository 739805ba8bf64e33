/** Student's t, for intervals that are computed from few shots. */

/** The 95 % point of the normal distribution. */
const Z = 1.6448536269514722;

/**
 * Returns the 95 % point of t: the half-width, in standard errors, of a two-sided 90 % interval. It
 * is exact for one and two degrees of freedom. For more, it uses Abramowitz & Stegun 26.7.5 (from
 * memory), which is within 0.002 of the printed tables at three and closer beyond.
 */
export function t95(freedom: number): number {
  if (!(freedom >= 1)) throw new RangeError(`no t with ${freedom} degrees of freedom`);
  if (freedom === 1) return Math.tan(0.45 * Math.PI);
  if (freedom === 2) return 0.9 / Math.sqrt(2 * 0.95 * 0.05);
  const terms = [
    (Z ** 3 + Z) / 4,
    (5 * Z ** 5 + 16 * Z ** 3 + 3 * Z) / 96,
    (3 * Z ** 7 + 19 * Z ** 5 + 17 * Z ** 3 - 15 * Z) / 384,
    (79 * Z ** 9 + 776 * Z ** 7 + 1482 * Z ** 5 - 1920 * Z ** 3 - 945 * Z) / 92160,
  ];
  return terms.reduce((sum, term, n) => sum + term / freedom ** (n + 1), Z);
}
