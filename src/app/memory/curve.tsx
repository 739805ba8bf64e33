import { useMemo } from 'preact/hooks';
import { CurvePlot } from '../../figure/index.ts';
import { forecastDecay, type HeldDay, numberCards } from '../../scheduler/index.ts';
import type { Occasion } from '../../store/index.ts';
import { dayWords, longDayWords } from '../parts/day-words.ts';
import { heldWords } from '../parts/occasion-line.tsx';
import type { MemoryData } from './data.ts';

/** How many days the curve covers without an occasion, and how many days it goes on after one. */
const WITHOUT_DAY = 28;
const BEYOND = 14;
/**
 * If a curve covers more days than this, it has one point a week, because two years of two thousand
 * lines take a while to compute.
 */
const LONG = 90;

/** Shows the forecast of held lines from today on: under the plan, and without any more answers. */
export function CurveSheet({
  data,
  occasion,
}: {
  readonly data: MemoryData;
  readonly occasion: Occasion | null;
}) {
  const { cards, log, today, plan } = data;
  const day = occasion && occasion.day > today ? occasion.day : null;
  const days = day === null ? WITHOUT_DAY : day - today + BEYOND;
  const lines = useMemo(() => numberCards(cards), [cards]);
  const decay = useMemo(
    () => forecastDecay(lines, log, today, days, days > LONG ? 7 : 1),
    [lines, log, today, days],
  );
  const planned = day === null ? null : plan;
  return (
    <section class="sheet" aria-labelledby="curve-title">
      <h2 id="curve-title">Forecast</h2>
      <p class="plot-key soft-words">
        {planned && (
          <span>
            <span class="key-stroke" /> if you keep to the plan
          </span>
        )}
        <span>
          <span class="key-stroke dashed" /> if you answer nothing more
        </span>
      </p>
      <CurvePlot
        curve={planned?.curve ?? []}
        decay={decay}
        {...(planned && day !== null ? { mark: { day, ...planned.forecast } } : {})}
        of={planned?.forecast.of ?? lines.length}
        dayWords={dayWords}
        label={labelOf(decay, today, planned && day !== null ? { day, ...planned } : null)}
      />
    </section>
  );
}

type Planned = { readonly day: number } & Pick<NonNullable<MemoryData['plan']>, 'forecast'>;

function labelOf(decay: readonly HeldDay[], today: number, planned: Planned | null): string {
  const now = decay[0];
  const last = decay.at(-1);
  if (!now || !last) return 'Nothing to forecast.';
  const left = `${Math.round(now.held)} lines held now; if nothing more is answered, ${Math.round(last.held)} on ${dayWords(last.day)}.`;
  if (!planned) return left;
  const { day, forecast } = planned;
  return `${left} By the plan, ${heldWords(forecast)} on ${longDayWords(day, today)}.`;
}
