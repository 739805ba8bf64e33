/**
 * Shows the occasion in one line on Today. The code is small, because it loads before the first
 * card.
 */

import { isolated } from '../../charts/index.ts';
import type { Forecast } from '../../scheduler/index.ts';
import type { Occasion } from '../../store/index.ts';
import { formatScreen } from '../router.ts';

/** "52 of 60 (48–55)". */
export function heldWords({ expected, low, high, of }: Forecast['held']): string {
  return `${Math.round(expected)} of ${of} (${Math.floor(low)}–${Math.ceil(high)})`;
}

/** Returns words such as "24 days to the Harbour Lane Open". */
export function countdownWords(occasion: Occasion, today: number): string {
  const { day } = occasion;
  const name = isolated(occasion.name);
  const days = day - today;
  if (days === 0) return `${name} is today`;
  return days === 1 ? `${name} is tomorrow` : `${days} days to ${name}`;
}

/** Today says that the goal is out of reach; Memory says what to do about it. */
export function fallsShortWords({ drop }: Pick<Forecast, 'drop'>): string {
  const what = drop.length > 0 ? 'what to drop' : 'what would do';
  return `that is less than nine lines of ten: see ${what}`;
}

/** Counts the days to the occasion. Shows nothing once its day is past. */
export function OccasionLine(props: {
  readonly occasion: Occasion | null;
  readonly today: number;
  /** Null until it is computed. */
  readonly forecast: Pick<Forecast, 'held' | 'enough' | 'drop'> | null;
}) {
  const { occasion, today, forecast } = props;
  if (!occasion || occasion.day < today) return null;
  return (
    <a class="sheet rehearsal-line" href={formatScreen({ name: 'memory' })}>
      <strong>{countdownWords(occasion, today)}</strong>
      {forecast && occasion.day > today && (
        <span class="soft-words">
          you will know {heldWords(forecast.held)}
          {!forecast.enough && `; ${fallsShortWords(forecast)}`}
        </span>
      )}
    </a>
  );
}
