/** Computes complete patterns. */

import { computeSheet, type SheetRequest } from '../charts/index.ts';
import { serve } from './serve.ts';

serve((sheets: readonly SheetRequest[]) => sheets.map(computeSheet));
