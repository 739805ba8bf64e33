import type { ComponentType, FunctionComponent } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { Page } from './page.tsx';

type State<P> =
  | { readonly at: 'loading' }
  | { readonly at: 'loaded'; readonly screen: ComponentType<P> }
  | { readonly at: 'failed' };

export interface LazyScreen<P> extends FunctionComponent<P> {
  /** Starts loading the code of a screen that will be shown soon. */
  readonly ahead: () => void;
}

/**
 * Returns a screen whose code loads when the screen is first shown, so that the first card appears
 * sooner. From then on it shows at once.
 */
export function lazy<P extends object>(load: () => Promise<ComponentType<P>>): LazyScreen<P> {
  const code = loadOnce(load);
  function Lazy(props: P) {
    const { state, again } = useLoaded(code);
    if (state.at === 'loaded') return <state.screen {...props} />;
    if (state.at === 'loading') return <main class="page" aria-busy="true" />;
    return <Failed again={again} />;
  }
  return Object.assign(Lazy, {
    ahead: () => {
      // The screen itself reports a failure.
      code.load().catch(() => undefined);
    },
  });
}

interface Code<P> {
  /** The component, once it has loaded. */
  readonly loaded: () => ComponentType<P> | null;
  /** Loads the component once. After a failure the next call tries again. */
  readonly load: () => Promise<ComponentType<P>>;
}

function loadOnce<P>(load: () => Promise<ComponentType<P>>): Code<P> {
  let kept: ComponentType<P> | null = null;
  let coming: Promise<ComponentType<P>> | null = null;
  return {
    loaded: () => kept,
    load: () => {
      coming ??= load().then(
        (component) => {
          kept = component;
          return component;
        },
        (error: unknown) => {
          coming = null;
          throw error;
        },
      );
      return coming;
    },
  };
}

function useLoaded<P>({ loaded, load }: Code<P>) {
  const [state, setState] = useState<State<P>>(() => {
    const screen = loaded();
    return screen ? { at: 'loaded', screen } : { at: 'loading' };
  });
  const [turn, setTurn] = useState(0);
  useEffect(() => {
    // Checks the state and not `loaded`, because the code may have loaded after this rendered.
    if (state.at === 'loaded') return;
    load().then(
      (screen) => setState({ at: 'loaded', screen }),
      () => setState({ at: 'failed' }),
    );
  }, [turn]);
  const again = (): void => {
    setState({ at: 'loading' });
    setTurn(turn + 1);
  };
  return { state, again };
}

function Failed({ again }: { readonly again: () => void }) {
  return (
    <Page title="Not here yet">
      <p role="alert">This part of Throughline could not be fetched: the device is not online.</p>
      <button type="button" class="key call" onClick={again}>
        Try again
      </button>
    </Page>
  );
}

/**
 * Returns a part of a screen that shows nothing until its code has loaded. If loading fails, it
 * never shows.
 */
export function beside<P extends object>(load: () => Promise<ComponentType<P>>): ComponentType<P> {
  const code = loadOnce(load);
  return function Beside(props: P) {
    const [Part, setPart] = useState(code.loaded);
    useEffect(() => {
      if (Part) return;
      code.load().then(
        (part) => setPart(() => part),
        (error: unknown) => console.error('Not fetched:', error),
      );
    }, []);
    return Part ? <Part {...props} /> : null;
  };
}
