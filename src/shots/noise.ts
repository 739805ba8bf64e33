/**
 * Computes how well a number agrees with what was seen. A miss is seen as a value. A made shot is
 * seen only as an interval: the ball was somewhere in its make window.
 *
 * With logistic errors, the likelihood of an interval is F(b) − F(a) = sinh((b − a)/2) / (2
 * cosh(a/2) cosh(b/2)). It is that of two half observations at the interval's ends. So one formula
 * serves both kinds, and a miss is an interval of width 0.
 *
 * For a miss the estimate is the M-estimate with Holland & Welsch's "logistic" weights
 * tanh(z/c)/(z/c), c = 1.205 (Comm. Stat. A6, 1977; the constant from memory). The pull of a shot
 * is bounded. The disagreement is convex, so there is exactly one estimate.
 */

/** What a shot tells about a quantity: that it is `middle` ± `half`, with an error of `noise`. */
export interface Observation {
  readonly middle: number;
  readonly half: number;
  /** The smallest standard deviation that its error can have: how coarsely people see at all. */
  readonly noise: number;
}

const TUNING = 1.205;
/**
 * Converts the scale of normal errors to the logistic scale, which gives the weights
 * tanh(z/c)/(z/c).
 */
const LOGISTIC = TUNING / 2;
/** The median of |z| for normal errors. */
const MEDIAN = 0.6745;
const SCALE_ROUNDS = 12;
const HALVINGS = 60;

/**
 * Returns −log likelihood of a value of the quantity, up to a constant.
 * @param scale the factor for all noises
 */
export function disagreement(seen: Observation, value: number, scale: number): number {
  const [a, b] = endsOf(seen, value, scale);
  return logCosh(a) + logCosh(b);
}

/** Returns how hard a shot pulls the quantity up: the negative slope of the disagreement. */
export function pull(seen: Observation, value: number, scale: number): number {
  const [a, b] = endsOf(seen, value, scale);
  return (Math.tanh(a) + Math.tanh(b)) / (2 * unit(seen, scale));
}

/** Returns the curvature of the disagreement. It is the shot's information, as 1/variance. */
export function information(seen: Observation, value: number, scale: number): number {
  const [a, b] = endsOf(seen, value, scale);
  const bend = 2 - Math.tanh(a) ** 2 - Math.tanh(b) ** 2;
  return bend / (4 * unit(seen, scale) ** 2);
}

/** Returns the part of its pull that a shot keeps: 1 if it agrees, near 0 if it is far off. */
export function weightOf(seen: Observation, value: number, scale: number): number {
  const z = beyond(seen, value) / (TUNING * scale * seen.noise);
  return z === 0 ? 1 : Math.tanh(z) / z;
}

/** Returns how far a value is outside the interval that was seen, signed; 0 if it is within. */
export function beyond({ middle, half }: Observation, value: number): number {
  const far = middle - value;
  return Math.sign(far) * Math.max(0, Math.abs(far) - half);
}

/**
 * Returns Akaike's criterion for small samples (AICc). The scale of the errors has to be the same
 * for all models, so that −2 log likelihood is twice the disagreement.
 * @param sum the sum of the disagreements of all shots
 */
export function aicc(sum: number, parameters: number, shots: number): number {
  const [k, n] = [parameters, shots];
  return 2 * sum + 2 * k + (2 * k * (k + 1)) / (n - k - 1);
}

/**
 * Returns the curvature that iterated least squares uses for its steps: the pull divided by the
 * distance. Source: Huber 1981, Robust Statistics, 7.8 (modified weights); from memory.
 */
export function stepCurvature(seen: Observation, value: number, scale: number): number {
  const far = seen.middle - value;
  return far === 0 ? information(seen, value, scale) : pull(seen, value, scale) / far;
}

/**
 * Returns how much larger the errors are than their noises. It is the median size of the errors,
 * divided by that of a normal error, times n/(n − p), and never below 1. The factor n/(n − p) is
 * within 4 % of Croux & Rousseeuw's (1992, from memory) for p = 1. A made shot is spread over the
 * error sizes that its interval allows (a self-consistent estimate, Turnbull 1976).
 * @param values the expected value of each shot
 * @param parameters how many parameters were fitted
 */
export function scaleOf(
  seen: readonly Observation[],
  values: readonly number[],
  parameters: number,
): number {
  const free = seen.length - parameters;
  if (free <= 0) return 1;
  let scale = 1;
  for (let round = 0; round < SCALE_ROUNDS; round++) {
    const before = scale;
    const within = (size: number) =>
      seen.reduce((sum, one, n) => sum + partWithin(one, values[n] ?? 0, before, size), 0);
    // The median is the middle size of an odd count, and the upper of the two middle sizes of an
    // even count.
    const size = leastWhere((s) => within(s) >= (seen.length + 1) / 2 - 1e-9);
    scale = Math.max(1, ((size / MEDIAN) * seen.length) / free);
  }
  return scale;
}

/** Returns the part of a shot that has an error of at most `size` noises. */
function partWithin(seen: Observation, value: number, scale: number, size: number): number {
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

/** Returns half the distance from a value to each end of the interval, in logistic units. */
function endsOf(seen: Observation, value: number, scale: number): readonly [number, number] {
  const one = 2 * unit(seen, scale);
  const far = seen.middle - value;
  return [(far - seen.half) / one, (far + seen.half) / one];
}

function unit({ noise }: Observation, scale: number): number {
  return LOGISTIC * scale * noise;
}

function logCosh(x: number): number {
  const size = Math.abs(x);
  return size + Math.log1p(Math.exp(-2 * size)) - Math.LN2;
}
