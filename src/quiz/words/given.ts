import type { Grade } from '../../cards/index.ts';
import type { Decimal } from '../../charts/index.ts';

/** A player's answer: its numbers and their grade. Null stands for "show me". */
export interface Given {
  readonly values: readonly Decimal[];
  readonly grade: Grade;
}
