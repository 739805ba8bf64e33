/** The day that counts, in a line on Today. Kept small: it comes with the first card. */

import type { Held } from '../scheduler/index.ts';
import type { Occasion } from '../store/index.ts';
import { formatScreen } from './router.ts';

/** "52 of 60 (48–55)". */
export function heldWords({ expected, low, high, of }: Held): string {
  return `${Math.round(expected)} of ${of} (${Math.floor(low)}–${Math.ceil(high)})`;
}

/** "24 days to the Harbour Lane Open". */
export function countdownWords({ name, day }: Occasion, today: number): string {
  const days = day - today;
  if (days === 0) return `${name} is today`;
  return days === 1 ? `${name} is tomorrow` : `${days} days to ${name}`;
}

/** Nothing once the day is past. */
export function OccasionLine(props: {
  readonly occasion: Occasion | null;
  readonly today: number;
  /** Null until it is worked out. */
  readonly forecast: Held | null;
}) {
  const { occasion, today, forecast } = props;
  if (!occasion || occasion.day < today) return null;
  const ahead = forecast && occasion.day > today;
  return (
    <a class="sheet rehearsal-line" href={formatScreen({ name: 'memory' })}>
      <strong>{countdownWords(occasion, today)}</strong>
      {ahead && <span class="soft-words">you will hold {heldWords(forecast)}</span>}
    </a>
  );
}
