import type { ReadonlySignal } from '@preact/signals';
import { clockFace } from './clock-face.ts';

/** Time left, as a bar and in seconds. What a screen reader hears of it changes once a question. */
export function ShotClock(props: {
  /** Milliseconds. */
  readonly left: ReadonlySignal<number | null>;
  /** The whole of the clock, seconds. */
  readonly whole: number;
}) {
  const { seconds, percent, last, said } = clockFace(props.left.value ?? 0, props.whole);
  return (
    <div class={last ? 'shot-clock last' : 'shot-clock'}>
      <div class="shot-clock-bar" aria-hidden="true">
        <span class="shot-clock-fill" style={{ inlineSize: `${percent.toFixed(1)}%` }} />
      </div>
      <span class="shot-clock-seconds" role="timer" aria-label={`${seconds} seconds left`}>
        {seconds} s
      </span>
      <span class="visually-hidden" role="status">
        {said !== null && `${said} seconds left`}
      </span>
    </div>
  );
}
