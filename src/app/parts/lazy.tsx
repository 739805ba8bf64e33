import type { ComponentType, FunctionComponent } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { Page } from './page.tsx';

type State<P> =
  | { readonly at: 'loading' }
  | { readonly at: 'loaded'; readonly screen: ComponentType<P> }
  | { readonly at: 'failed' };

export interface LazyScreen<P> extends FunctionComponent<P> {
  /** Begins to fetch it, for a screen that will be shown soon. */
  readonly ahead: () => void;
}

/**
 * A screen whose code is fetched when it is first wanted, so that the first card comes sooner. Once
 * fetched it is there at once.
 */
export function lazy<P extends object>(load: () => Promise<ComponentType<P>>): LazyScreen<P> {
  let kept: ComponentType<P> | null = null;
  let coming: Promise<ComponentType<P>> | null = null;
  const fetchOnce = (): Promise<ComponentType<P>> => {
    coming ??= load().catch((error: unknown) => {
      coming = null;
      throw error;
    });
    return coming;
  };
  function Lazy(props: P) {
    const [state, setState] = useState<State<P>>(
      kept ? { at: 'loaded', screen: kept } : { at: 'loading' },
    );
    const [turn, setTurn] = useState(0);
    useEffect(() => {
      // Not `kept`: it may have come after this was drawn.
      if (state.at === 'loaded') return;
      fetchOnce().then(
        (screen) => {
          kept = screen;
          setState({ at: 'loaded', screen });
        },
        () => setState({ at: 'failed' }),
      );
    }, [turn]);
    if (state.at === 'loaded') return <state.screen {...props} />;
    if (state.at === 'loading') return <main class="page" aria-busy="true" />;
    const again = (): void => {
      setState({ at: 'loading' });
      setTurn(turn + 1);
    };
    return (
      <Page title="Not here yet">
        <p role="alert">This part of Throughline could not be fetched: the device is not online.</p>
        <button type="button" class="key call" onClick={again}>
          Try again
        </button>
      </Page>
    );
  }
  return Object.assign(Lazy, {
    ahead: () => {
      // If it fails, it is told where the screen is shown.
      fetchOnce().catch(() => undefined);
    },
  });
}

/** A part that the screen does without until it is fetched, or for good if it cannot be. */
export function beside<P extends object>(load: () => Promise<ComponentType<P>>): ComponentType<P> {
  let kept: ComponentType<P> | null = null;
  return function Beside(props: P) {
    const [Part, setPart] = useState(() => kept);
    useEffect(() => {
      if (Part) return;
      load().then(
        (part) => {
          kept = part;
          setPart(() => part);
        },
        (error: unknown) => console.error('Not fetched:', error),
      );
    }, []);
    return Part ? <Part {...props} /> : null;
  };
}
