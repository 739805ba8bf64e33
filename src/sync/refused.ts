/** The reasons for refusing to sync, and the error that gives one. */

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
  | 'contradicts';

export class Refused extends Error {
  readonly code: SyncError;

  /** @param say one or two sentences for the player */
  constructor(code: SyncError, say: string) {
    super(say);
    this.code = code;
  }
}
