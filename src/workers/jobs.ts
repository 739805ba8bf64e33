/** The workers from which the page needs only the latest answer. */

import type { Sheet, SheetRequest } from '../charts/index.ts';
import type { Forecast, ForecastRequest } from '../scheduler/index.ts';
import type { Evening, EveningRequest } from '../shots/index.ts';
import type { LatestOnly } from './latest-only.ts';

/** Computes complete patterns (sheet-worker.ts). */
export type Solver = LatestOnly<readonly SheetRequest[], readonly Sheet[]>;
/** Works out what test shots tell about a table (fit-worker.ts). */
export type Fitter = LatestOnly<EveningRequest, Evening>;
/** Forecasts the lines known on the day that counts (forecast-worker.ts). */
export type Forecaster = LatestOnly<ForecastRequest, Forecast>;
