export type { DeviceStorage } from './device-storage.ts';
export { browserFiles, type Files } from './files.ts';
export { whenIdle } from './idle.ts';
export { createModel, type Model, type ModelPorts } from './model.ts';
export type { Offline } from './offline.ts';
export { formatScreen, parseScreen, type Screen } from './router.ts';
export { App } from './shell.tsx';
