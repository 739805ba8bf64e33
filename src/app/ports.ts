import type { ReadonlySignal } from '@preact/signals';
import type { Stopwatch } from '../quiz/index.ts';
import type { Fitter, Historian, Solver, WeightsWorker } from '../workers/index.ts';
import type { DeviceStorage } from './device/device-storage.ts';
import type { Files } from './device/files.ts';
import type { Offline } from './device/offline.ts';
import type { Screen } from './router.ts';
import type { Model } from './state/model.ts';
import type { Syncing } from './state/syncing.ts';
import type { Workspace } from './state/workspace.ts';

/** What main.tsx passes to the screens. Each screen takes what it needs. */
export interface AppPorts {
  readonly model: Model;
  readonly workspace: Workspace;
  readonly screen: ReadonlySignal<Screen>;
  readonly go: (screen: Screen) => void;
  readonly stopwatch: Stopwatch;
  readonly files: Files;
  readonly storage: DeviceStorage;
  readonly solver: Solver;
  readonly fitter: Fitter;
  readonly historian: Historian;
  readonly weightsWorker: WeightsWorker;
  /** Loads the code that syncs with the player's other devices. */
  readonly loadSyncing: () => Promise<Syncing>;
  readonly print: () => void;
  /**
   * The copy of the app on this device. Null until its code is loaded, and in browsers that cannot
   * store the app.
   */
  readonly offline: ReadonlySignal<Offline | null>;
}
