/** Plans practice until the day that counts. */

import { planFor } from '../scheduler/index.ts';
import { serve } from './serve.ts';

serve(planFor);
