/** Work that stays while the player visits other screens, and is gone when the page closes. */

import type { Editing } from './editing/editing.ts';
import type { Workbench } from './workbench.ts';

export interface Workspace {
  /** The workbench for trying out a table; null until a pattern's page first shows it. */
  workbench: Workbench | null;
  /** The charts being edited, by id. */
  readonly editings: Map<string, Editing>;
}
