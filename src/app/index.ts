export { App } from './app.tsx';
export { browserFiles, type Files } from './device/files.ts';
export { whenIdle } from './device/idle.ts';
export type { Offline } from './device/offline.ts';
export type { DeviceStorage } from './keeping/device-storage.ts';
export { formatScreen, parseScreen, type Screen } from './router.ts';
export { createModel, type Model, type ModelPorts } from './state/model.ts';
