/** Every entry for outside text or data. */

import { FILES } from './files.ts';
import { RECORDS } from './records.ts';
import { STORED } from './stores.ts';
import type { Target } from './target.ts';
import { TYPED } from './typed.ts';

export const TARGETS: readonly Target[] = [...FILES, ...RECORDS, ...TYPED, ...STORED];
