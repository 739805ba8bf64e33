import type { RefObject } from 'preact';
import { useRef, useState } from 'preact/hooks';
import { isSecondTap } from '../../quiz/index.ts';
import { fractionWords, spokenFraction } from './words.ts';

/**
 * The distances on the keys, in diamonds. Players describe an arrival in quarters; "More" shows the
 * second list.
 */
const NEAR = [0.25, 0.5, 0.75, 1] as const;
const FAR = [1.5, 2, 2.5, 3, 4, 0] as const;

interface ArrivalProps {
  readonly waits: boolean;
  readonly log: (miss: number | null) => void;
  /**
   * Called if the ball did not get there. Nothing is logged, and the line is not suggested again
   * tonight.
   */
  readonly lost: () => void;
  /** Takes the last shot back; null if there is none. */
  readonly undo: (() => void) | null;
  /** The key that takes the focus when no shot is left to remove. */
  readonly made: RefObject<HTMLButtonElement | null>;
}

/**
 * Logs where the ball arrived, with one tap for each shot. Keys that have to wait stay enabled, so
 * that they keep the focus.
 */
export function ArrivalKeys({ waits, log, lost, undo, made }: ArrivalProps) {
  const [more, setMore] = useState(false);
  const moreKey = useRef<HTMLButtonElement>(null);
  const once = useOnce();
  const report = (event: MouseEvent, miss: number | null): void => {
    if (waits) return;
    once(event, () => {
      // A key of the second list disappears after the tap, so the focus moves to the "More" key.
      if (isFar(miss)) moreKey.current?.focus({ preventScroll: true });
      setMore(false);
      log(miss);
    });
  };
  return (
    <div class="arrivals">
      <button
        type="button"
        ref={made}
        class="key call made"
        aria-disabled={waits}
        onClick={(event) => report(event, null)}
      >
        Made
      </button>
      <Side word="Short" sign={-1} waits={waits} more={more} report={report} />
      <Side word="Long" sign={1} waits={waits} more={more} report={report} />
      <div class="arrival-others">
        <button
          type="button"
          ref={moreKey}
          class="key quiet"
          aria-expanded={more}
          onClick={() => setMore(!more)}
        >
          {more ? 'Less' : 'More …'}
        </button>
        <OtherKey label="Did not get there" job={waits ? null : lost} once={once} />
        <OtherKey label="Undo last" job={undo} once={once} />
      </div>
    </div>
  );
}

/**
 * A key that does a job.
 * @param props.job null while the key does nothing
 */
function OtherKey(props: {
  readonly label: string;
  readonly job: (() => void) | null;
  readonly once: Once;
}) {
  const { label, job, once } = props;
  return (
    <button
      type="button"
      class="key quiet"
      aria-disabled={job === null}
      onClick={(event) => job && once(event, job)}
    >
      {label}
    </button>
  );
}

function isFar(miss: number | null): boolean {
  return miss !== null && FAR.some((amount) => amount === Math.abs(miss));
}

type Once = (event: MouseEvent, job: () => void) => void;

/** Returns a function that runs a job, except at the second tap of a double tap. */
function useOnce(): Once {
  const last = useRef(Number.NEGATIVE_INFINITY);
  return (event, job) => {
    const now = performance.now();
    if (isSecondTap(event, now - last.current)) return;
    last.current = now;
    job();
  };
}

function Side(props: {
  readonly word: 'Short' | 'Long';
  readonly sign: 1 | -1;
  readonly waits: boolean;
  readonly more: boolean;
  readonly report: (event: MouseEvent, miss: number) => void;
}) {
  const { word, sign, waits, more, report } = props;
  // A ball that rattled out of the middle of the pocket has a single key, on the long side.
  const far = FAR.filter((amount) => amount > 0 || sign > 0);
  return (
    <fieldset class="side">
      <legend>{word} by</legend>
      {[...NEAR, ...(more ? far : [])].map((amount) => (
        <button
          key={amount}
          type="button"
          class="key"
          aria-disabled={waits}
          aria-label={
            amount === 0 ? 'At the pocket, not made' : `${word} by ${spokenFraction(amount)}`
          }
          onClick={(event) => report(event, sign * amount)}
        >
          {amount === 0 ? 'rattled' : fractionWords(amount)}
        </button>
      ))}
    </fieldset>
  );
}
