/** √(a² + b²) without the overflow guard of Math.hypot, which costs ten times as much. */
export function hypotenuse(a: number, b: number): number {
  return Math.sqrt(a * a + b * b);
}
