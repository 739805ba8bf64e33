import { useEffect, useLayoutEffect } from 'preact/hooks';
import { useArrival } from './arrival.ts';
import type { AppPorts } from './ports.ts';
import { formatScreen, type Screen } from './router.ts';
import { entryOf, fetchQuiz, KeepingNotice, titleOf } from './screens.ts';
import type { Model } from './state/model.ts';

export function App(props: AppPorts) {
  const { model, screen } = props;
  const now = screen.value;
  useTheme(model);
  useTitle(titleOf(now));
  useQuizAhead(screen);
  useArrival(titleOf(now));
  const opening = model.opening.value;
  if (opening.at === 'opening') return <div class="opening" role="status" aria-label="Opening" />;
  if (opening.at === 'failed') return <Failed say={opening.say} />;
  if (entryOf(now).alone) return <CurrentScreen {...props} />;
  return (
    <div class="shell">
      <Navigation screen={now} />
      <Notices model={model} />
      <KeepingNotice {...props} mayAsk={now.name === 'today'} />
      <CurrentScreen {...props} />
    </div>
  );
}

function useTheme({ settings }: Pick<Model, 'settings'>): void {
  const { theme } = settings.value;
  useEffect(() => {
    if (theme === 'system') delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = theme;
  }, [theme]);
}

function useTitle(title: string): void {
  useEffect(() => {
    document.title = `${title} · Throughline`;
  }, [title]);
}

/**
 * Loads the quiz's code while the disk is read, on a page that opens on the quiz. It waits until
 * the first script has run: a browser that reports where a request comes from would otherwise parse
 * the outermost script again.
 */
function useQuizAhead(screen: AppPorts['screen']): void {
  useLayoutEffect(() => {
    if (screen.peek().name === 'quiz') queueMicrotask(fetchQuiz);
  }, []);
}

function CurrentScreen(props: AppPorts) {
  const now = props.screen.value;
  const { component: Current, key } = entryOf(now);
  const all = { ...props, ...now };
  return <Current {...all} key={key?.(all)} />;
}

const PLACES = [
  { screen: { name: 'today' }, label: 'Today' },
  { screen: { name: 'drills' }, label: 'Drills' },
  { screen: { name: 'rehearsal' }, label: 'Rehearsal' },
  { screen: { name: 'charts' }, label: 'Charts' },
  // Narrow screens have no room for Memory here; Today links to it instead.
  { screen: { name: 'memory' }, label: 'Memory', where: 'wide' },
  { screen: { name: 'settings' }, label: 'Settings' },
] as const satisfies readonly { screen: Screen; label: string; where?: 'wide' }[];

function Navigation({ screen }: { readonly screen: Screen }) {
  const current = entryOf(screen).parent ?? screen.name;
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

/** The app's logo: a line that turns at a rail. */
function Mark() {
  return (
    <svg viewBox="0 0 32 32" width="28" height="28" aria-hidden="true" class="wordmark-sign">
      <path d="M3 5h26" />
      <path class="turn" d="M6 27L17 7l9 16" />
      <circle cx="26" cy="23" r="3.4" />
    </svg>
  );
}

function Notices({ model }: { readonly model: Pick<Model, 'unreadable'> }) {
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
