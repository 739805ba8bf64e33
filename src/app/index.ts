export { App } from './app.tsx';
export { browserFiles } from './device/files.ts';
export { onIdle, whenIdle } from './device/idle.ts';
export { isNewDevice, newDeviceId } from './device/new-device.ts';
export type { Offline } from './device/offline.ts';
export { admitOwnScripts } from './device/own-scripts.ts';
export { formatScreen, parseScreen, type Screen } from './router.ts';
export { createModel, type Model } from './state/model.ts';
export type { Workspace } from './state/workspace.ts';
