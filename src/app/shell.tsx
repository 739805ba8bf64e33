import type { ReadonlySignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import { patternOf } from '../charts/index.ts';
import { createSession, QuizScreen, type Stopwatch } from '../quiz/index.ts';
import type { Solver } from '../workers/index.ts';
import { ChartsScreen } from './charts-screen.tsx';
import type { Files } from './files.ts';
import type { Model } from './model.ts';
import { PatternScreen } from './pattern-screen.tsx';
import { formatScreen, type Screen } from './router.ts';
import { SettingsScreen } from './settings-screen.tsx';
import { TodayScreen } from './today-screen.tsx';
import { createWorkbench } from './workbench.ts';

export interface AppProps {
  readonly model: Model;
  readonly screen: ReadonlySignal<Screen>;
  readonly go: (screen: Screen) => void;
  readonly stopwatch: Stopwatch;
  readonly files: Files;
  readonly solver: Solver;
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
  if (opening.at === 'opening') return <div class="opening" role="status" aria-label="Opening" />;
  if (opening.at === 'failed') return <Failed say={opening.say} />;
  if (screen.value.name === 'quiz') return <Quiz {...props} />;
  return (
    <div class="shell">
      <Navigation screen={screen.value} />
      <Notices model={model} />
      <CurrentScreen {...props} />
    </div>
  );
}

function titleOf(screen: Screen): string {
  if (screen.name === 'pattern') return patternOf(screen.pattern).name;
  return { today: 'Today', quiz: 'Quiz', charts: 'Charts', settings: 'Settings' }[screen.name];
}

function CurrentScreen({ model, screen, go, files, solver }: AppProps) {
  const bench = useMemo(() => createWorkbench(solver, model.chart.peek()), [model, solver]);
  const now = screen.value;
  switch (now.name) {
    case 'charts':
      return <ChartsScreen model={model} />;
    case 'pattern':
      return <PatternScreen model={model} bench={bench} pattern={now.pattern} key={now.pattern} />;
    case 'settings':
      return <SettingsScreen model={model} files={files} />;
    default:
      return <TodayScreen model={model} begin={() => go({ name: 'quiz' })} />;
  }
}

function Quiz({ model, go, stopwatch }: AppProps) {
  const chart = model.chart.value;
  const session = useMemo(
    () =>
      createSession({
        chart,
        cards: model.cards.peek(),
        log: model.log,
        settings: model.settings,
        append: model.append,
        now: model.now,
        today: model.today,
        stopwatch,
      }),
    [model, chart, stopwatch],
  );
  return (
    <QuizScreen
      session={session}
      chart={chart}
      settings={model.settings.value}
      leave={() => go({ name: 'today' })}
    />
  );
}

const PLACES = [
  { screen: { name: 'today' }, label: 'Today' },
  { screen: { name: 'charts' }, label: 'Charts' },
  { screen: { name: 'settings' }, label: 'Settings' },
] as const satisfies readonly { screen: Screen; label: string }[];

function Navigation({ screen }: { readonly screen: Screen }) {
  const current = screen.name === 'pattern' ? 'charts' : screen.name;
  return (
    <nav class="navigation" aria-label="Screens">
      <span class="wordmark">
        <Mark /> Throughline
      </span>
      {PLACES.map(({ screen: place, label }) => (
        <a
          key={label}
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
