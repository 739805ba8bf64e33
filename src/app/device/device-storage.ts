/** This browser's storage; either part may be missing or refuse. */
export interface DeviceStorage {
  /** Missing on a page without https. */
  readonly manager: StorageManager | undefined;
  /** Throws where the browser forbids it. */
  readonly local: () => Storage;
}
