export { connect, disconnect, type Joining, type Wish } from './connect.ts';
export { Refused, type SyncError } from './refused.ts';
export { openRemote, type Remote } from './remote.ts';
export type { Fetch, Folder } from './requests.ts';
export type { Ports } from './session.ts';
export { type Status, statusOf } from './status.ts';
export { type Done, sync } from './sync.ts';
