export { connect, disconnect, type Joining, type Wish } from './connect.ts';
export { Refused } from './refused.ts';
export { openRemote } from './remote.ts';
export type { Ports } from './session.ts';
export { type Status, statusOf } from './status.ts';
export { type Done, sync } from './sync.ts';
