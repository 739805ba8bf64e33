export { App } from './app.tsx';
export type { DeviceStorage } from './device/device-storage.ts';
export { browserFiles, type Files } from './device/files.ts';
export { whenIdle } from './device/idle.ts';
export type { Offline } from './device/offline.ts';
export { formatScreen, parseScreen, type Screen } from './router.ts';
export { createModel, type Model, type ModelPorts } from './state/model.ts';
export type { Workspace } from './state/workspace.ts';
