/** Forecasts the lines known on the day that counts. */

import { forecastFor } from '../scheduler/index.ts';
import { serve } from './serve.ts';

serve(forecastFor);
