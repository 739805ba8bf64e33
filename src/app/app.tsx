import { useEffect, useLayoutEffect } from 'preact/hooks';
import { useArrival } from './parts/arrival.ts';
import type { AppPorts } from './ports.ts';
import { formatScreen, type Screen } from './router.ts';
import { entryOf, fetchQuiz, KeepingNotice, titleOf } from './screens.ts';
import type { Model } from './state/model.ts';

export function App(props: AppPorts) {
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
    if (screen.peek().name === 'quiz') queueMicrotask(fetchQuiz);
  }, []);
  useArrival(title);
  if (opening.at === 'opening') return <div class="opening" role="status" aria-label="Opening" />;
  if (opening.at === 'failed') return <Failed say={opening.say} />;
  const now = screen.value;
  if (entryOf(now).alone) return <CurrentScreen {...props} />;
  return (
    <div class="shell">
      <Navigation screen={screen.value} />
      <Notices model={model} />
      <KeepingNotice {...props} mayAsk={now.name === 'today'} />
      <CurrentScreen {...props} />
    </div>
  );
}

function CurrentScreen(props: AppPorts) {
  const now = props.screen.value;
  const { component: Current, key } = entryOf(now);
  const shown = { ...props, ...now };
  return <Current {...shown} key={key?.(shown)} />;
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
