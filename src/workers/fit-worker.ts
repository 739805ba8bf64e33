/** Works out what test shots say of a table. */

import { eveningOf } from '../shots/index.ts';
import { serve } from './serve.ts';

serve(eveningOf);
