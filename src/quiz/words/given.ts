import type { Grade } from '../../cards/index.ts';
import type { Decimal } from '../../charts/index.ts';

/** The answer as given: numbers and their grade, or null for "show me". */
export interface Given {
  readonly values: readonly Decimal[];
  readonly grade: Grade;
}
