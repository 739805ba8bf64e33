/** The composition root: the only place that wires clock, randomness, storage and the DOM. */

import './app/style/typeface.css';
import './app/style/tokens.css';
import './app/style/base.css';
import './app/style/figure.css';
import './app/practice/quiz.css';
import './app/app.css';
import './app/today/today.css';
import './app/charts/charts.css';
import './app/settings/settings.css';
import './app/practice/drills.css';
import './app/practice/rehearsal.css';
import './app/practice/ear.css';
import './app/look-up/look-up.css';
import './app/practice/placement.css';
import { SOLVED_NUMBERS } from 'virtual:solved-numbers';
import { signal } from '@preact/signals';
import { render } from 'preact';
import {
  App,
  browserFiles,
  createModel,
  formatScreen,
  type Offline,
  parseScreen,
  type Screen,
  type Workspace,
  whenIdle,
} from './app/index.ts';
import { unpackSolved } from './charts/index.ts';
import { createStopwatch, onIdle } from './quiz/index.ts';
import { createStore } from './store/index.ts';
import {
  createHistorian,
  createWeightsFitter,
  type Fitter,
  latestOnly,
  type Solver,
} from './workers/index.ts';

admitOwnScripts();

const STORE = 'throughline';
const channel = new BroadcastChannel(STORE);

const model = createModel({
  store: createStore({ name: STORE, newDeviceId }),
  clock: {
    now: () => Math.round(Date.now()),
    offsetMinutes: (at) => -new Date(at).getTimezoneOffset(),
  },
  channel: { send: (message) => channel.postMessage(message) },
  planner: latestOnly(
    () => new Worker(new URL('./workers/plan-worker.ts', import.meta.url), { type: 'module' }),
  ),
  whenIdle,
  solved: unpackSolved(SOLVED_NUMBERS),
});
channel.addEventListener('message', (message: MessageEvent<unknown>) =>
  model.receive(message.data),
);

const screen = signal<Screen>(parseScreen(location.hash));
window.addEventListener('hashchange', () => {
  screen.value = parseScreen(location.hash);
  window.scrollTo(0, 0);
});

const offline = signal<Offline | null>(null);
// After the first screen, whose files it would be in the way of; the sources need no keeping.
if (import.meta.env.PROD)
  window.addEventListener('load', () => onIdle(() => void keepOnDevice(), UNHURRIED));

async function keepOnDevice(): Promise<void> {
  try {
    const { browserOffline } = await import('./app/device/offline-device.ts');
    offline.value = browserOffline(screen);
  } catch (error) {
    console.error('Not kept for use without a network:', error);
  }
}

const stopwatch = createStopwatch(() => performance.now());
document.addEventListener('visibilitychange', () => {
  if (document.hidden) {
    stopwatch.pause();
  } else {
    stopwatch.resume();
    model.lookAtClock();
  }
});
// A page left open over night notices the new day.
setInterval(model.lookAtClock, 60_000);

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
const weightsFitter = createWeightsFitter(
  () => new Worker(new URL('./workers/weights-worker.ts', import.meta.url), { type: 'module' }),
  STORE,
);

const loadSyncing = once(async () => (await import('./syncing.ts')).syncing(STORE, model, screen));
/** Long after the first screen is there, milliseconds. */
const UNHURRIED = 3000;

/** Made when it is first wanted. */
function once<T extends object>(make: () => T): () => T {
  let made: T | null = null;
  return () => {
    made ??= make();
    return made;
  };
}

const workspace: Workspace = { workbench: null, editings: new Map() };

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
    weightsFitter={weightsFitter}
    loadSyncing={loadSyncing}
    print={() => window.print()}
    offline={offline}
  />,
  root,
);
const isNew = isNewDevice();
void model.open(isNew).then(() => setTimeout(() => void loadSyncing(), UNHURRIED));
// While the questions are fetched.
if (isNew) setTimeout(() => model.cards.peek(), 0);

/**
 * A page that nothing of it was kept for. Where storage is forbidden it cannot be told, and a page
 * that was reloaded past its service worker has left its mark.
 */
function isNewDevice(): boolean {
  if (navigator.serviceWorker?.controller) return false;
  try {
    const isNew = localStorage.getItem(STORE) === null;
    localStorage.setItem(STORE, 'opened');
    return isNew;
  } catch {
    return false;
  }
}

/**
 * Under the page's policy no text becomes a script's address but by this one way (Trusted Types, W3C):
 * one of our own files. No text becomes markup at all.
 */
function admitOwnScripts(): void {
  const { trustedTypes } = window as { trustedTypes?: TrustedTypes };
  trustedTypes?.createPolicy('default', {
    createScriptURL: (address) =>
      new URL(address, location.href).origin === location.origin ? address : null,
  });
}

interface TrustedTypes {
  readonly createPolicy: (
    name: string,
    rules: { readonly createScriptURL: (address: string) => string | null },
  ) => unknown;
}

/** Ten random characters: one of 36¹⁰, about 3.7e15, names. */
function newDeviceId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(10));
  return Array.from(bytes, (byte) => (byte % 36).toString(36)).join('');
}
