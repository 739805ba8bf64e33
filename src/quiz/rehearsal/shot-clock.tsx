import type { ReadonlySignal } from '@preact/signals';
import { clockFace } from './clock-face.ts';

/** Shows the time left, as a bar and in seconds. Screen readers announce it once per question. */
export function ShotClock(props: {
  /** The time left, in milliseconds. */
  readonly left: ReadonlySignal<number | null>;
  /** The full time, in seconds. */
  readonly whole: number;
}) {
  const { seconds, percent, last, announced } = clockFace(props.left.value ?? 0, props.whole);
  return (
    <div class={last ? 'shot-clock last' : 'shot-clock'}>
      <div class="shot-clock-bar" aria-hidden="true">
        <span class="shot-clock-fill" style={{ inlineSize: `${percent.toFixed(1)}%` }} />
      </div>
      <span class="shot-clock-seconds" role="timer" aria-label={`${seconds} seconds left`}>
        {seconds} s
      </span>
      <span class="visually-hidden" role="status">
        {announced !== null && `${announced} seconds left`}
      </span>
    </div>
  );
}
