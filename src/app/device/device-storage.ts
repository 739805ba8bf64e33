/** What this browser stores for the page; either may be missing or refuse. */
export interface DeviceStorage {
  /** Missing on a page that came without encryption. */
  readonly manager: StorageManager | undefined;
  /** @throws where the browser forbids it */
  readonly local: () => Storage;
}
