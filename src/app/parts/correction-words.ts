import { formatDecimal } from '../../charts/index.ts';
import type { Correction } from '../../shots/index.ts';

/** "tonight’s +0.1", as it is written beside a number. */
export function shortCorrection(correction: Correction): string {
  return correction.kind === 'factor'
    ? `tonight’s × ${formatDecimal(correction.times)}`
    : `tonight’s ${formatDecimal(correction.add, 1, true)}`;
}
