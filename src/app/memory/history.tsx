import { CalibrationPlot, LoadPlot } from '../../figure/index.ts';
import { type Calibration, heldOn } from '../../scheduler/index.ts';
import { dayWords } from '../parts/day-words.ts';
import type { MemoryData } from './data.ts';
import { type Yield, yieldOf } from './lines.ts';

/** How many weeks are drawn. */
const DRAWN = 26;

/** Shows how many answers each line that is held now has cost so far. */
export function YieldSheet({ data }: { readonly data: MemoryData }) {
  const { cards, log, today, history } = data;
  const held = heldOn(cards, log, today).expected;
  return (
    <section class="sheet" aria-labelledby="yield-title">
      <h2 id="yield-title">Answers for a line</h2>
      {history ? (
        <YieldBody yields={yieldOf(history.weeks, held)} weeks={history.weeks.slice(-DRAWN)} />
      ) : (
        <Working />
      )}
    </section>
  );
}

function YieldBody(props: {
  readonly yields: Yield;
  readonly weeks: NonNullable<MemoryData['history']>['weeks'];
}) {
  const { yields, weeks } = props;
  const last = weeks.at(-1);
  if (yields.answers === 0 || !last) return <p class="soft-words">Nothing was answered yet.</p>;
  return (
    <>
      <p>{yieldWords(yields)}</p>
      {weeks.length > 1 && (
        <LoadPlot
          bars={weeks}
          now={last.day}
          dayWords={dayWords}
          label={`Answers a week. ${yieldWords(yields)}`}
          summary="These weeks in numbers"
          head="Week from"
        />
      )}
    </>
  );
}

function yieldWords({ answers, each, trend }: Yield): string {
  const count = answers === 1 ? 'One answer' : `${answers} answers`;
  const parts = [
    each === null
      ? `${count} so far.`
      : `${count} so far: ${each.toFixed(1)} for each line you know now.`,
    trend ? `In the last four weeks ${trend.last}, in the four before ${trend.before}.` : '',
  ];
  return parts.filter(Boolean).join(' ');
}

/** Shows whether the forecasts came true. */
export function CalibrationSheet({ history }: Pick<MemoryData, 'history'>) {
  return (
    <section class="sheet" aria-labelledby="calibration-title">
      <h2 id="calibration-title">Forecast and truth</h2>
      {history ? <CalibrationBody {...history.calibration} /> : <Working />}
    </section>
  );
}

function CalibrationBody({ bins, predicted, right, answers }: Calibration) {
  if (predicted === null || right === null) {
    return (
      <p class="soft-words">
        No answer was forecast yet: a line is, once it comes back on a later day.
      </p>
    );
  }
  const percent = (part: number) => `${Math.round(100 * part)} %`;
  const count = answers === 1 ? 'one answer' : `${answers} answers`;
  const words = `Of ${count} ${percent(predicted)} were forecast to be right, and ${percent(right)} were.`;
  return (
    <>
      <p>{words}</p>
      <CalibrationPlot bins={bins} label={words} />
      <p class="soft-words">
        On the straight line a forecast is neither too high nor too low. The upright strokes are
        what chance alone allows, nine times in ten.
      </p>
    </>
  );
}

/** Stands where the history will be. */
export function Working() {
  return (
    <p class="soft-words" role="status">
      Working it out
    </p>
  );
}
