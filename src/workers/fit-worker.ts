/** Works out what test shots tell about a table. */

import { eveningOf } from '../shots/index.ts';
import { serve } from './serve.ts';

serve(eveningOf);
