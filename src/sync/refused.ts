/** Why a sync was not done. Nothing was changed on this device, or in the folder, when it is said. */

export type SyncError =
  | 'address'
  | 'no crypto'
  | 'unreachable'
  | 'not let in'
  | 'no folder'
  | 'not WebDAV'
  | 'full'
  | 'server'
  | 'listing'
  | 'header'
  | 'weak header'
  | 'other header'
  | 'passphrase'
  | 'newer'
  | 'too large'
  | 'damaged'
  | 'contradicts'
  | 'here';

/** Thrown inside this room; what leaves it is a result (conductor.ts). */
export class Refused extends Error {
  readonly code: SyncError;

  /** @param say one or two sentences for the player */
  constructor(code: SyncError, say: string) {
    super(say);
    this.code = code;
  }
}
