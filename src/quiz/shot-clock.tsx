import type { ReadonlySignal } from '@preact/signals';

/** From here on the clock is marked, seconds. */
const LAST = 5;
/** So many seconds left are said aloud, once. */
const SAID = 10;

/** Time left, as a bar and in seconds. What a screen reader hears of it changes once a question. */
export function ShotClock(props: {
  readonly left: ReadonlySignal<number | null>;
  /** The whole of the clock, seconds. */
  readonly whole: number;
}) {
  const { whole } = props;
  const left = props.left.value ?? 0;
  const seconds = Math.ceil(left / 1000);
  return (
    <div class={seconds <= LAST ? 'shot-clock last' : 'shot-clock'}>
      <div class="shot-clock-bar" aria-hidden="true">
        <span
          class="shot-clock-fill"
          style={{ inlineSize: `${(left / whole / 10).toFixed(1)}%` }}
        />
      </div>
      <span class="shot-clock-seconds" role="timer" aria-label={`${seconds} seconds left`}>
        {seconds} s
      </span>
      <span class="visually-hidden" role="status">
        {seconds <= SAID && `${SAID} seconds left`}
      </span>
    </div>
  );
}
