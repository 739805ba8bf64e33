/** This browser's storage. Either part may be missing or may refuse. */
export interface DeviceStorage {
  /** The storage manager; undefined on a page without https. */
  readonly manager: StorageManager | undefined;
  /** Returns the local storage. Throws if the browser forbids it. */
  readonly local: () => Storage;
}
