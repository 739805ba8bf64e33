import type { Grade } from '../../cards/index.ts';
import type { Decimal } from '../../charts/index.ts';

/** A player's answer: its numbers and their grade. Where it is null, the player asked to be shown. */
export interface Given {
  readonly values: readonly Decimal[];
  readonly grade: Grade;
}
