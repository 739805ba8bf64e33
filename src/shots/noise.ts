/**
 * How well a number agrees with what was seen. A miss is seen as a value, a made shot only as an
 * interval: the ball was somewhere in its make window. With logistic errors an interval's likelihood,
 * F(b) − F(a) = sinh((b − a)/2) / (2 cosh(a/2) cosh(b/2)), is that of two half observations at its
 * ends, so both kinds are one formula, and a miss is the interval of no width. For a miss the
 * estimate is the M-estimate with Holland & Welsch's "logistic" weights tanh(z/c)/(z/c), c = 1.205
 * (Comm. Stat. A6, 1977; the constant from memory): bounded in its pull, convex, so there is one.
 */

/** What a shot says of a quantity: that it lies at `middle` ± `half`, give or take `noise`. */
export interface Seen {
  readonly middle: number;
  readonly half: number;
  /** The least standard deviation of its error: how coarsely it can be told at all. */
  readonly noise: number;
}

const TUNING = 1.205;
/** From the scale of bell-shaped errors to the logistic's: what makes the weights tanh(z/c)/(z/c). */
const LOGISTIC = TUNING / 2;
/** The median of |z| of bell-shaped errors. */
const MEDIAN = 0.6745;
const HALVINGS = 60;

/** −log likelihood of a quantity, but for what does not depend on it. `scale`: of all noises. */
export function disagreement(seen: Seen, value: number, scale: number): number {
  const [a, b] = endsOf(seen, value, scale);
  return logCosh(a) + logCosh(b);
}

/** How hard a shot pulls the quantity up; the negative slope of the disagreement. */
export function pull(seen: Seen, value: number, scale: number): number {
  const [a, b] = endsOf(seen, value, scale);
  return (Math.tanh(a) + Math.tanh(b)) / (2 * unit(seen, scale));
}

/** The curvature of the disagreement: what the shot tells, as 1/variance. */
export function telling(seen: Seen, value: number, scale: number): number {
  const [a, b] = endsOf(seen, value, scale);
  const bend = 2 - Math.tanh(a) ** 2 - Math.tanh(b) ** 2;
  return bend / (4 * unit(seen, scale) ** 2);
}

/** The part of its pull that a shot keeps: 1 where it agrees, towards 0 the further off it is. */
export function weightOf(seen: Seen, value: number, scale: number): number {
  const z = beyond(seen, value) / (TUNING * scale * seen.noise);
  return z === 0 ? 1 : Math.tanh(z) / z;
}

/** How far a value is from what was seen, signed; within the interval it is not. */
export function beyond({ middle, half }: Seen, value: number): number {
  const far = middle - value;
  return Math.sign(far) * Math.max(0, Math.abs(far) - half);
}

/**
 * The curvature with which repeated least squares goes downhill: pull over distance.
 * Source: Huber 1981, Robust Statistics, 7.8 (modified weights); from memory.
 */
export function steepness(seen: Seen, value: number, scale: number): number {
  const far = seen.middle - value;
  return far === 0 ? telling(seen, value, scale) : pull(seen, value, scale) / far;
}

/**
 * How much larger the errors are than their noises: the median of their sizes over that of a
 * bell-shaped error, times n/(n − p), never below 1. That factor is within 4 % of Croux & Rousseeuw's
 * (1992, from memory) for p = 1. A made shot counts in parts, as its interval spreads it over sizes
 * (a self-consistent estimate, Turnbull 1976).
 * @param values what each shot should have said
 * @param parameters how many were fitted
 */
export function scaleOf(
  seen: readonly Seen[],
  values: readonly number[],
  parameters: number,
): number {
  const free = seen.length - parameters;
  if (free <= 0) return 1;
  let scale = 1;
  for (let round = 0; round < 12; round++) {
    const now = scale;
    const within = (size: number) =>
      seen.reduce((sum, one, n) => sum + partWithin(one, values[n] ?? 0, now, size), 0);
    // Half of an odd number is its middle one, of an even number the upper of the two.
    const size = leastWhere((s) => within(s) >= (seen.length + 1) / 2 - 1e-9);
    scale = Math.max(1, ((size / MEDIAN) * seen.length) / free);
  }
  return scale;
}

/** How much of a shot has an error of at most so many noises, on a scale. */
function partWithin(seen: Seen, value: number, scale: number, size: number): number {
  const far = seen.middle - value;
  const reach = size * seen.noise;
  if (seen.half === 0) return Math.abs(far) <= reach ? 1 : 0;
  const nearest = Math.max(0, Math.abs(far) - seen.half);
  if (nearest > 20 * unit(seen, scale)) return nearest <= reach ? 1 : 0;
  const mass = (from: number, to: number) =>
    to <= from ? 0 : Math.tanh(to / 2) - Math.tanh(from / 2);
  const low = (far - seen.half) / unit(seen, scale);
  const high = (far + seen.half) / unit(seen, scale);
  const most = reach / unit(seen, scale);
  return mass(Math.max(low, -most), Math.min(high, most)) / mass(low, high);
}

function leastWhere(holds: (size: number) => boolean): number {
  let high = 1;
  while (!holds(high) && high < 1e6) high *= 2;
  let low = 0;
  for (let n = 0; n < HALVINGS; n++) {
    const middle = (low + high) / 2;
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** The interval's ends seen from a value, halved, in logistic units. */
function endsOf(seen: Seen, value: number, scale: number): readonly [number, number] {
  const one = 2 * unit(seen, scale);
  const far = seen.middle - value;
  return [(far - seen.half) / one, (far + seen.half) / one];
}

function unit({ noise }: Seen, scale: number): number {
  return LOGISTIC * scale * noise;
}

function logCosh(x: number): number {
  const size = Math.abs(x);
  return size + Math.log1p(Math.exp(-2 * size)) - Math.LN2;
}
