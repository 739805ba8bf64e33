import './occasion.css';
import { useRef, useState } from 'preact/hooks';
import { isolated } from '../../../charts/index.ts';
import { fewestMinutesFor } from '../../../quiz/index.ts';
import type { Forecast } from '../../../scheduler/index.ts';
import type { Occasion } from '../../../store/index.ts';
import type { Files } from '../../device/files.ts';
import { longDayWords } from '../../parts/day-words.ts';
import { heldWords } from '../../parts/occasion-line.tsx';
import type { Model } from '../../state/model.ts';
import type { MemoryData } from '../data.ts';
import { CalendarKeys } from './calendar-keys.tsx';
import { DropLines } from './drop-lines.tsx';
import { OccasionForm } from './form.tsx';
import { droppedLines, remedyWords, shortWords } from './words.ts';

type OccasionModel = Pick<
  Model,
  'settings' | 'changeSettings' | 'outlook' | 'log' | 'append' | 'today' | 'now'
>;

/** Sets and changes the occasion, and forecasts how many lines will be held on its day. */
export function OccasionSheet(props: {
  readonly model: OccasionModel;
  readonly data: MemoryData;
  readonly files: Files;
}) {
  const { model, data, files } = props;
  const { occasion } = model.settings.value;
  const [changing, setChanging] = useState(false);
  const title = useRef<HTMLHeadingElement>(null);
  const done = (): void => {
    setChanging(false);
    // The form is gone, so the heading of the sheet takes the focus.
    title.current?.focus();
  };
  const keep = (wanted: Occasion | null) => model.changeSettings({ occasion: wanted });
  const ahead = occasion !== null && occasion.day > data.today;
  return (
    <section class="sheet occasion" aria-labelledby="occasion-title">
      <h2 id="occasion-title" tabIndex={-1} ref={title}>
        The day
      </h2>
      <About occasion={occasion} today={data.today} />
      {occasion && ahead && <Outlook model={model} data={data} occasion={occasion} />}
      {occasion && !changing && (
        <button type="button" class="key" onClick={() => setChanging(true)}>
          {ahead ? 'Change the day' : 'Set another day'}
        </button>
      )}
      {(!occasion || changing) && (
        <OccasionForm occasion={occasion} today={data.today} keep={keep} onDone={done} />
      )}
      {occasion && ahead && <CalendarKeys model={model} occasion={occasion} files={files} />}
    </section>
  );
}

function About(props: { readonly occasion: Occasion | null; readonly today: number }) {
  const { occasion, today } = props;
  if (!occasion) {
    return (
      <p class="soft-words">
        A tournament or a match: name the day, and what is asked until then is chosen so that you
        hold the most lines on it.
      </p>
    );
  }
  const ahead = occasion.day > today;
  return (
    <p>
      <strong>{isolated(occasion.name)}</strong>, {longDayWords(occasion.day, today)}
      {ahead ? `, ${occasion.minutes} minutes a day.` : isOrWas(occasion, today)}
    </p>
  );
}

function isOrWas({ day }: Occasion, today: number): string {
  return day === today ? ': it is today.' : ': it is past.';
}

/** Shows the forecast, and says what to do if it falls short. */
function Outlook(props: {
  readonly model: OccasionModel;
  readonly data: MemoryData;
  readonly occasion: Occasion;
}) {
  const { model, data, occasion } = props;
  const { forecast, today, log } = data;
  const outlook = model.outlook.value;
  if (outlook.at === 'failed') {
    return (
      <p class="problem" role="alert">
        {outlook.say}
      </p>
    );
  }
  if (!forecast) {
    return (
      <p class="soft-words" role="status">
        Working out what you will know
      </p>
    );
  }
  return (
    <>
      <p class="say" role="status">
        On {longDayWords(occasion.day, today)} you will know {heldWords(forecast.held)}
      </p>
      {!forecast.enough && (
        <NotEnough
          model={model}
          data={data}
          forecast={forecast}
          minutes={occasion.minutes}
          needed={
            forecast.stepsNeeded === null ? null : fewestMinutesFor(forecast.stepsNeeded, log)
          }
        />
      )}
    </>
  );
}

function NotEnough(props: {
  readonly model: OccasionModel;
  readonly data: MemoryData;
  readonly forecast: Forecast;
  readonly minutes: number;
  /** The minutes a day that the goal needs; null if no time is enough. */
  readonly needed: number | null;
}) {
  const { model, data, forecast, minutes, needed } = props;
  const lines = droppedLines(data, forecast);
  return (
    <>
      <p>
        {shortWords(forecast, minutes)} {remedyWords(needed, lines.length)}
      </p>
      {lines.length > 0 && <DropLines model={model} lines={lines} />}
    </>
  );
}
