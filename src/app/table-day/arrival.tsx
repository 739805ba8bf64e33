import type { RefObject } from 'preact';
import { useRef, useState } from 'preact/hooks';
import { isSecondTap } from '../../quiz/index.ts';
import { fractionWords, spokenFraction } from './words.ts';

/** Quarter diamonds, as players describe an arrival; "More" shows the others. */
const NEAR = [0.25, 0.5, 0.75, 1] as const;
const FAR = [1.5, 2, 2.5, 3, 4, 0] as const;

interface ArrivalProps {
  readonly waits: boolean;
  readonly log: (miss: number | null) => void;
  /** The ball did not get there: nothing is logged, and the line is not suggested again tonight. */
  readonly lost: () => void;
  /** Takes the last shot back; null if there is none. */
  readonly undo: (() => void) | null;
  /** Takes the focus when no shot is left to remove. */
  readonly made: RefObject<HTMLButtonElement | null>;
}

/** Logs where the ball arrived, one tap a shot. A key that waits stays enabled, to keep its focus. */
export function ArrivalKeys({ waits, log, lost, undo, made }: ArrivalProps) {
  const [more, setMore] = useState(false);
  const moreKey = useRef<HTMLButtonElement>(null);
  const once = useOnce();
  const report = (event: MouseEvent, miss: number | null): void => {
    if (waits) return;
    once(event, () => {
      // A far key disappears with its row; the near ones stay in place.
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

/** @param props.job null while the key does nothing */
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

/** Runs one job at a time: the second half of a double tap does nothing. */
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
  // A ball that rattles out of the middle has one key, on the side of long.
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
