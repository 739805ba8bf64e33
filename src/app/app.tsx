import type { ReadonlySignal } from '@preact/signals';
import { useEffect, useLayoutEffect } from 'preact/hooks';
import { patternOf } from '../charts/index.ts';
import type { Stopwatch } from '../quiz/index.ts';
import type { Fitter, Historian, Solver, WeightsPort } from '../workers/index.ts';
import type { Files } from './device/files.ts';
import type { Offline } from './device/offline.ts';
import type { DeviceStorage } from './keeping/device-storage.ts';
import { useArrival } from './parts/arrival.ts';
import { beside, later } from './parts/lazy.tsx';
import { formatScreen, type Screen } from './router.ts';
import type { Model } from './state/model.ts';
import type { Syncing } from './state/syncing.ts';
import { TodayScreen } from './today/screen.tsx';

const DrillsScreen = later(async () => (await import('./practice/drills-screen.tsx')).DrillsScreen);
const EditorScreen = later(async () => (await import('./edit/screen.tsx')).EditorScreen);
const LevelsScreen = later(async () => (await import('./edit/levels-screen.tsx')).LevelsScreen);
const MemoryScreen = later(async () => (await import('./memory/screen.tsx')).MemoryScreen);
const NewChartScreen = later(async () => (await import('./charts/new-screen.tsx')).NewChartScreen);
const EarScreen = later(async () => (await import('./practice/ear-screen.tsx')).EarScreen);
const LookUpScreen = later(async () => (await import('./look-up/screen.tsx')).LookUpScreen);
const PatternScreen = later(async () => (await import('./pattern/screen.tsx')).PatternScreen);
const PlacementScreen = later(
  async () => (await import('./practice/placement-screen.tsx')).PlacementScreen,
);
const PrintScreen = later(async () => (await import('./print/screen.tsx')).PrintScreen);
const PublishScreen = later(
  async () => (await import('./exchange/publish-screen.tsx')).PublishScreen,
);
const RehearsalScreen = later(
  async () => (await import('./practice/rehearsal-screen.tsx')).RehearsalScreen,
);
const ScoreSheetScreen = later(
  async () => (await import('./practice/score-sheet-screen.tsx')).ScoreSheetScreen,
);
const SettingsScreen = later(async () => (await import('./settings/screen.tsx')).SettingsScreen);
const TableDayScreen = later(async () => (await import('./table-day/screen.tsx')).TableDayScreen);
const Quiz = later(async () => (await import('./practice/quiz.tsx')).Quiz);
const RevisionsScreen = later(
  async () => (await import('./charts/revisions-screen.tsx')).RevisionsScreen,
);
const ReceiveScreen = later(
  async () => (await import('./exchange/receive-screen.tsx')).ReceiveScreen,
);
const ChartsScreen = later(async () => (await import('./charts/screen.tsx')).ChartsScreen);
const KeepingNotice = beside(async () => (await import('./keeping/notice.tsx')).KeepingNotice);

export interface AppProps {
  readonly model: Model;
  readonly screen: ReadonlySignal<Screen>;
  readonly go: (screen: Screen) => void;
  readonly stopwatch: Stopwatch;
  readonly files: Files;
  readonly storage: DeviceStorage;
  readonly solver: Solver;
  /** Begins the fitting worker when it is first asked for. */
  readonly fitter: () => Fitter;
  /** Begins the worker that goes through the whole log when it is first asked for. */
  readonly historian: () => Historian;
  /** Starts a worker that fits memory weights to the log. */
  readonly startWeightsWorker: () => WeightsPort;
  /** Fetches what syncs with the player's other devices. */
  readonly loadSyncing: () => Promise<Syncing>;
  /** Prints the page as it stands. */
  readonly print: () => void;
  /** The app kept on the device; null until that has been looked into, and where it cannot be. */
  readonly offline: ReadonlySignal<Offline | null>;
}

export function App(props: AppProps) {
  const { model, screen } = props;
  const opening = model.opening.value;
  const { theme } = model.settings.value;
  useEffect(() => {
    if (theme === 'system') delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = theme;
  }, [theme]);
  const title = titleOf(screen.value);
  useEffect(() => {
    document.title = `${title} · Throughline`;
  }, [title]);
  // While the device's data is read, not after it; once the script has run through, for a browser that
  // looks where a request comes from reads all of it again if that is its outermost part.
  useLayoutEffect(() => {
    if (screen.peek().name === 'quiz') queueMicrotask(Quiz.ahead);
  }, []);
  useArrival(title);
  if (opening.at === 'opening') return <div class="opening" role="status" aria-label="Opening" />;
  if (opening.at === 'failed') return <Failed say={opening.say} />;
  const now = screen.value;
  if (now.name === 'quiz') return <Quiz {...props} minutes={now.minutes} />;
  if (now.name === 'ear') return <EarScreen {...props} />;
  return (
    <div class="shell">
      <Navigation screen={screen.value} />
      <Notices model={model} />
      <KeepingNotice {...props} mayAsk={now.name === 'today'} />
      <CurrentScreen {...props} />
    </div>
  );
}

const TITLES: Readonly<Record<Exclude<Screen['name'], 'pattern'>, string>> = {
  today: 'Today',
  quiz: 'Quiz',
  charts: 'Charts',
  drills: 'Drills',
  drill: 'Drill',
  rehearsal: 'Rehearsal',
  'score-sheet': 'Score sheet',
  ear: 'By ear',
  'look-up': 'Look up',
  placement: 'Placement',
  print: 'Print',
  publish: 'Publish',
  memory: 'Memory',
  edit: 'Edit the chart',
  'new-chart': 'New chart',
  levels: 'Instructor’s view',
  settings: 'Settings',
  revisions: 'Revisions',
  receive: 'Receive a chart',
  'table-day': 'Table day',
};

function titleOf(screen: Screen): string {
  return screen.name === 'pattern' ? patternOf(screen.pattern).name : TITLES[screen.name];
}

function CurrentScreen(props: AppProps) {
  const { model, screen, files, solver } = props;
  const now = screen.value;
  switch (now.name) {
    case 'charts':
      return <ChartsScreen model={model} />;
    case 'pattern':
      return <PatternScreen {...{ model, solver, files }} {...now} key={now.pattern} />;
    case 'print':
      return (
        <PrintScreen {...props} {...now} key={`${model.chart.value.document.id} ${now.pattern}`} />
      );
    case 'drills':
    case 'drill':
      return <DrillsScreen {...props} />;
    case 'rehearsal':
      return <RehearsalScreen {...props} />;
    case 'score-sheet':
      return <ScoreSheetScreen {...props} {...now} key={now.id} />;
    case 'look-up':
      return <LookUpScreen {...props} />;
    case 'placement':
      return <PlacementScreen {...props} />;
    case 'publish':
      return <PublishScreen model={model} files={files} />;
    case 'memory':
      return <MemoryScreen {...props} />;
    case 'revisions':
      return <RevisionsScreen model={model} pair={now.pair} key={now.pair?.join()} />;
    case 'receive':
      return <ReceiveScreen model={model} code={now.code} key={now.code} />;
    case 'edit':
      return <EditorScreen {...props} pattern={now.pattern} />;
    case 'new-chart':
      return <NewChartScreen {...props} />;
    case 'levels':
      return <LevelsScreen {...props} />;
    case 'table-day':
      return <TableDayScreen model={model} fitter={props.fitter()} />;
    case 'settings':
      return <SettingsScreen {...props} />;
    default:
      return <TodayScreen {...props} />;
  }
}

const PLACES = [
  { screen: { name: 'today' }, label: 'Today' },
  { screen: { name: 'drills' }, label: 'Drills' },
  { screen: { name: 'rehearsal' }, label: 'Rehearsal' },
  { screen: { name: 'charts' }, label: 'Charts' },
  // Where there is no room for it, it is reached from Today.
  { screen: { name: 'memory' }, label: 'Memory', where: 'wide' },
  { screen: { name: 'settings' }, label: 'Settings' },
] as const satisfies readonly { screen: Screen; label: string; where?: 'wide' }[];

function Navigation({ screen }: { readonly screen: Screen }) {
  const inside: Partial<Record<Screen['name'], Screen['name']>> = {
    pattern: 'charts',
    print: 'charts',
    publish: 'charts',
    revisions: 'charts',
    receive: 'charts',
    edit: 'charts',
    'new-chart': 'charts',
    levels: 'charts',
    drill: 'drills',
    'score-sheet': 'rehearsal',
    'look-up': 'today',
    placement: 'today',
    ear: 'today',
    'table-day': 'today',
  };
  const current = inside[screen.name] ?? screen.name;
  return (
    <nav class="navigation" aria-label="Screens">
      <span class="wordmark">
        <Mark /> Throughline
      </span>
      {PLACES.map(({ screen: place, label, ...rest }) => (
        <a
          key={label}
          class={'where' in rest ? rest.where : undefined}
          href={formatScreen(place)}
          {...(place.name === current ? { 'aria-current': 'page' as const } : {})}
        >
          {label}
        </a>
      ))}
    </nav>
  );
}

/** Our mark: a line that turns at a rail. */
function Mark() {
  return (
    <svg viewBox="0 0 32 32" width="28" height="28" aria-hidden="true" class="wordmark-sign">
      <path d="M3 5h26" />
      <path class="turn" d="M6 27L17 7l9 16" />
      <circle cx="26" cy="23" r="3.4" />
    </svg>
  );
}

function Notices({ model }: { readonly model: Model }) {
  const count = model.unreadable.value;
  if (count === 0) return null;
  return (
    <p class="notice" role="status">
      {count === 1 ? 'One stored record' : `${count} stored records`} could not be read by this
      version. They are kept on the device as they are.
    </p>
  );
}

function Failed({ say }: { readonly say: string }) {
  return (
    <main class="page">
      <h1>Throughline cannot start</h1>
      <p>{say}</p>
    </main>
  );
}
