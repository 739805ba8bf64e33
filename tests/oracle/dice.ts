/** Numbers from 0 to 1 that are the same at every run (a linear congruence, Numerical Recipes). */
export function dice(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
