/** Returns √(a² + b²). It leaves out the overflow guard that makes Math.hypot ten times as slow. */
export function hypotenuse(a: number, b: number): number {
  return Math.sqrt(a * a + b * b);
}
