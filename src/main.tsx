/** The composition root: the only place that connects clock, randomness, storage, and the DOM. */

import './app/style/typeface.css';
import './app/style/tokens.css';
import './app/style/base.css';
import './app/style/parts.css';
import './app/style/fields.css';
import './app/style/lines.css';
import './app/style/pattern.css';
import './app/style/shell.css';
import { SOLVED_NUMBERS } from 'virtual:solved-numbers';
import { signal } from '@preact/signals';
import { render } from 'preact';
import {
  App,
  admitOwnScripts,
  browserFiles,
  createModel,
  formatScreen,
  isNewDevice,
  newDeviceId,
  type Offline,
  onIdle,
  parseScreen,
  type Screen,
  type Workspace,
  whenIdle,
} from './app/index.ts';
import { unpackSolved } from './charts/index.ts';
import { createStopwatch } from './quiz/index.ts';
import { createStore } from './store/index.ts';
import { createHistorian, type Fitter, latestOnly, type Solver } from './workers/index.ts';

/** The name of the database, and of the channel between tabs. */
const STORE = 'throughline';
/** When to start tasks that are not urgent, in milliseconds: long after the first screen. */
const UNHURRIED = 3000;

admitOwnScripts();

const channel = new BroadcastChannel(STORE);
const model = createModel({
  store: createStore({ name: STORE, newDeviceId }),
  clock: {
    now: () => Math.round(Date.now()),
    offsetMinutes: (at) => -new Date(at).getTimezoneOffset(),
  },
  channel: { send: (message) => channel.postMessage(message) },
  forecaster: latestOnly(
    () => new Worker(new URL('./workers/forecast-worker.ts', import.meta.url), { type: 'module' }),
  ),
  whenIdle,
  solved: unpackSolved(SOLVED_NUMBERS),
});
channel.addEventListener('message', ({ data }: MessageEvent<unknown>) => model.receive(data));

const workspace: Workspace = { workbench: null, editings: new Map() };
const screen = signal<Screen>(parseScreen(location.hash));
const stopwatch = createStopwatch(() => performance.now());
const offline = signal<Offline | null>(null);

const solver: Solver = latestOnly(
  () => new Worker(new URL('./workers/sheet-worker.ts', import.meta.url), { type: 'module' }),
);
const fitter: Fitter = latestOnly(
  () => new Worker(new URL('./workers/fit-worker.ts', import.meta.url), { type: 'module' }),
);
const historian = createHistorian(
  () => new Worker(new URL('./workers/history-worker.ts', import.meta.url), { type: 'module' }),
  STORE,
);
const weightsWorker = {
  start: () =>
    new Worker(new URL('./workers/weights-worker.ts', import.meta.url), { type: 'module' }),
  store: STORE,
};
const loadSyncing = once(async () => (await import('./syncing.ts')).syncing(STORE, model, screen));

followAddress();
followTime();
storeApp();
renderApp();
openModel();

function followAddress(): void {
  window.addEventListener('hashchange', () => {
    screen.value = parseScreen(location.hash);
    window.scrollTo(0, 0);
  });
}

/** Pauses the stopwatch while the page is hidden. Notices a new day if the page stays open. */
function followTime(): void {
  document.addEventListener('visibilitychange', () => {
    if (document.hidden) {
      stopwatch.pause();
    } else {
      stopwatch.resume();
      model.lookAtClock();
    }
  });
  setInterval(model.lookAtClock, 60_000);
}

/**
 * Stores the app on the device after the first screen has loaded. Does nothing during development.
 */
function storeApp(): void {
  const store = async (): Promise<void> => {
    try {
      const { browserOffline } = await import('./app/device/offline-device.ts');
      offline.value = browserOffline(screen);
    } catch (error) {
      console.error('Not kept for use without a network:', error);
    }
  };
  if (import.meta.env.PROD)
    window.addEventListener('load', () => onIdle(() => void store(), UNHURRIED));
}

function renderApp(): void {
  const root = document.getElementById('app');
  if (!root) throw new Error('the page has no #app');
  render(
    <App
      model={model}
      workspace={workspace}
      screen={screen}
      go={(to) => {
        location.hash = formatScreen(to);
      }}
      stopwatch={stopwatch}
      files={browserFiles}
      storage={{ manager: navigator.storage, local: () => localStorage }}
      solver={solver}
      fitter={fitter}
      historian={historian}
      weightsWorker={weightsWorker}
      loadSyncing={loadSyncing}
      print={() => window.print()}
      offline={offline}
    />,
    root,
  );
}

function openModel(): void {
  const isNew = isNewDevice();
  void model.open(isNew).then(() => setTimeout(() => void loadSyncing(), UNHURRIED));
  // Computes the cards while the quiz is still loading.
  if (isNew) setTimeout(() => model.cards.peek(), 0);
}

/** Returns a function that calls `make` the first time and keeps its result. */
function once<T extends object>(make: () => T): () => T {
  let made: T | null = null;
  return () => {
    made ??= make();
    return made;
  };
}
