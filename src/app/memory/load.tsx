import { LoadPlot } from '../../figure/index.ts';
import { minutesFor } from '../../quiz/index.ts';
import type { LoadDay } from '../../scheduler/index.ts';
import { dayWords } from '../parts/day-words.ts';
import type { MemoryData } from './data.ts';

/** How many days ahead the load is shown: four weeks. */
const AHEAD = 28;

/** Questions a day in the coming weeks, as the forecast expects them. */
export function LoadSheet({ data }: { readonly data: MemoryData }) {
  const { log, today, forecast } = data;
  const load = forecast?.load.slice(0, AHEAD) ?? [];
  const all = Math.round(load.reduce((sum, { answers }) => sum + answers, 0));
  const words = forecast ? loadWords(load, all, minutesFor(all / load.length, log)) : '';
  return (
    <section class="sheet" aria-labelledby="load-title">
      <h2 id="load-title">The coming weeks</h2>
      {forecast ? (
        <>
          <p>{words}</p>
          <LoadPlot
            bars={load}
            now={today}
            dayWords={dayWords}
            label={`Questions a day, today first. ${words}`}
            summary="This load in numbers"
            head="Day"
          />
          <p class="soft-words">On average, with the days that you usually miss.</p>
        </>
      ) : (
        <p class="soft-words" role="status">
          Working out the coming weeks
        </p>
      )}
    </section>
  );
}

function loadWords(load: readonly LoadDay[], all: number, minutes: number): string {
  if (all === 0) return 'Nothing to ask.';
  const most = load.reduce((a, b) => (b.answers > a.answers ? b : a));
  const questions = all === 1 ? 'One question' : `${all} questions`;
  return `${questions} in all, about ${minutes} min a day; most on ${dayWords(most.day)}, ${Math.round(most.answers)}.`;
}
