import type { SyncStore } from '../store/index.ts';
import type { Remote } from './remote.ts';
import type { Folder } from './requests.ts';
import type { SyncState } from './state.ts';

export interface Ports {
  readonly store: SyncStore;
  readonly remote: (folder: Folder) => Remote;
  /** Returns the current time, in milliseconds since 1970-01-01 UTC. */
  readonly now: () => number;
}

/** The data that one sync works on: this device's store, the folder, and the state of the syncing. */
export class Session {
  readonly store: SyncStore;
  readonly remote: Remote;
  readonly now: () => number;
  #state: SyncState;

  constructor({ store, remote, now }: Ports, state: SyncState) {
    this.store = store;
    this.remote = remote(state);
    this.now = now;
    this.#state = state;
  }

  get state(): SyncState {
    return this.#state;
  }

  /** Changes the state and saves it at once, because the next step may be interrupted. */
  async save(change: Partial<SyncState>): Promise<void> {
    this.#state = { ...this.#state, ...change };
    await this.store.saveState(this.#state);
  }
}
