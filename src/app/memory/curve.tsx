import { useMemo } from 'preact/hooks';
import { CurvePlot } from '../../figure/index.ts';
import { AHEAD, forecastDecay, type HeldDay, numberCards } from '../../scheduler/index.ts';
import type { Occasion } from '../../store/index.ts';
import { dayWords, longDayWords } from '../parts/day-words.ts';
import { heldWords } from '../parts/occasion-line.tsx';
import type { MemoryData } from './data.ts';

/** How far the curve goes beyond an occasion, days. */
const BEYOND = 14;
/**
 * If a curve covers more days than this, it has one point a week, because two years of two thousand
 * lines take a while to compute.
 */
const LONG = 90;

/** Lines held from today on: if the player practices, and without any more answers. */
export function CurveSheet({
  data,
  occasion,
}: {
  readonly data: MemoryData;
  readonly occasion: Occasion | null;
}) {
  const { cards, log, today, forecast } = data;
  const isSet = occasion !== null && occasion.day > today;
  const day = isSet ? occasion.day : today + AHEAD;
  const days = day - today + (isSet ? BEYOND : 0);
  const lines = useMemo(() => numberCards(cards), [cards]);
  const decay = useMemo(
    () => forecastDecay(lines, log, today, days, days > LONG ? 7 : 1),
    [lines, log, today, days],
  );
  return (
    <section class="sheet" aria-labelledby="curve-title">
      <h2 id="curve-title">Forecast</h2>
      <p class="plot-key soft-words">
        {forecast && (
          <span>
            <span class="key-stroke" /> if you practice as you do
          </span>
        )}
        <span>
          <span class="key-stroke dashed" /> if you answer nothing more
        </span>
      </p>
      <CurvePlot
        curve={forecast?.curve ?? []}
        decay={decay}
        {...(forecast ? { mark: { day, ...forecast.held } } : {})}
        of={forecast?.held.of ?? lines.length}
        dayWords={dayWords}
        label={labelOf(decay, today, forecast && { day, held: forecast.held })}
      />
    </section>
  );
}

type Ahead = { readonly day: number } & Pick<NonNullable<MemoryData['forecast']>, 'held'>;

function labelOf(decay: readonly HeldDay[], today: number, ahead: Ahead | null): string {
  const now = decay[0];
  const last = decay.at(-1);
  if (!now || !last) return 'Nothing to forecast.';
  const left = `${Math.round(now.held)} lines known now; if nothing more is answered, ${Math.round(last.held)} on ${dayWords(last.day)}.`;
  if (!ahead) return left;
  const { day, held } = ahead;
  return `${left} If you practice, ${heldWords(held)} on ${longDayWords(day, today)}.`;
}
