import type { Speed } from '../../table/index.ts';

/** Returns a value for each speed, computed in order from soft to firm. */
export function bySpeed<T>(of: (speed: Speed) => T): Readonly<Record<Speed, T>> {
  return { soft: of('soft'), medium: of('medium'), firm: of('firm') };
}
