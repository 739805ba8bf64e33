import { useState } from 'preact/hooks';
import { fractionWords, spokenFraction } from './table-day-words.ts';

/** Quarter diamonds, as people tell an arrival; the others a tap further. */
const NEAR = [0.25, 0.5, 0.75, 1] as const;
const FAR = [1.5, 2, 2.5, 3, 4, 0] as const;

interface ArrivalProps {
  readonly waits: boolean;
  readonly log: (miss: number | null) => void;
  /** Takes the last shot back; null if there is none. */
  readonly undo: (() => void) | null;
}

/** Where it arrived: one tap logs the shot. */
export function ArrivalKeys({ waits, log, undo }: ArrivalProps) {
  const [more, setMore] = useState(false);
  const tell = (miss: number | null): void => {
    setMore(false);
    log(miss);
  };
  return (
    <div class="arrivals">
      <button type="button" class="key call made" disabled={waits} onClick={() => tell(null)}>
        Made
      </button>
      <Side word="Short" sign={-1} waits={waits} more={more} tell={tell} />
      <Side word="Long" sign={1} waits={waits} more={more} tell={tell} />
      <button type="button" class="key quiet" aria-expanded={more} onClick={() => setMore(!more)}>
        {more ? 'Less' : 'More …'}
      </button>
      <button type="button" class="key quiet" disabled={!undo} onClick={() => undo?.()}>
        Undo last
      </button>
    </div>
  );
}

function Side(props: {
  readonly word: 'Short' | 'Long';
  readonly sign: 1 | -1;
  readonly waits: boolean;
  readonly more: boolean;
  readonly tell: (miss: number) => void;
}) {
  const { word, sign, waits, more, tell } = props;
  // Rattled out of the very middle: told once, on the side of long.
  const far = FAR.filter((amount) => amount > 0 || sign > 0);
  return (
    <fieldset class="side">
      <legend>{word} by</legend>
      {[...NEAR, ...(more ? far : [])].map((amount) => (
        <button
          key={amount}
          type="button"
          class="key"
          disabled={waits}
          aria-label={
            amount === 0 ? 'At the pocket, not made' : `${word} by ${spokenFraction(amount)}`
          }
          onClick={() => tell(sign * amount)}
        >
          {amount === 0 ? 'rattled' : fractionWords(amount)}
        </button>
      ))}
    </fieldset>
  );
}
