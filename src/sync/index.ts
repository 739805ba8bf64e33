export {
  connect,
  type Done,
  disconnect,
  type Joining,
  type Ports,
  type Status,
  statusOf,
  sync,
  type Wish,
} from './conductor.ts';
export { Refused, type SyncError } from './refused.ts';
export { type Fetch, type Folder, openRemote, type Remote } from './remote.ts';
