import { useMemo } from 'preact/hooks';
import { LoadPlot } from '../../figure/index.ts';
import { minutesFor, queueSettings } from '../../quiz/index.ts';
import { comingDue, type LoadDay } from '../../scheduler/index.ts';
import { dayWords } from '../parts/day-words.ts';
import type { Model } from '../state/model.ts';
import type { MemoryData } from './data.ts';

/** How many days ahead the load is shown: four weeks. */
const AHEAD = 28;

/**
 * Shows the answers for each day of the coming weeks. With a plan these are the planned answers,
 * otherwise those that fall due.
 */
export function LoadSheet({
  model,
  data,
}: {
  readonly model: Pick<Model, 'settings'>;
  readonly data: MemoryData;
}) {
  const { cards, log, today, plan } = data;
  const settings = queueSettings(model.settings.value);
  const load = useMemo(
    () => plan?.load.slice(0, AHEAD) ?? comingDue(cards, log, today, AHEAD, settings),
    [plan, cards, log, today, model.settings.value],
  );
  const all = Math.round(load.reduce((sum, { answers }) => sum + answers, 0));
  const words = loadWords(load, all, minutesFor(all / load.length, log));
  return (
    <section class="sheet" aria-labelledby="load-title">
      <h2 id="load-title">The coming weeks</h2>
      <p>{words}</p>
      <LoadPlot
        bars={load}
        now={today}
        dayWords={dayWords}
        label={`Answers a day, today first. ${words}`}
        summary="This load in numbers"
        head="Day"
      />
      <p class="soft-words">
        {plan
          ? 'What the plan asks for, day by day.'
          : 'What falls due, each question once: the day it is due again hangs on your answer.'}
      </p>
    </section>
  );
}

function loadWords(load: readonly LoadDay[], all: number, minutes: number): string {
  if (all === 0) return 'Nothing falls due.';
  const most = load.reduce((a, b) => (b.answers > a.answers ? b : a));
  const answers = all === 1 ? 'One answer' : `${all} answers`;
  return `${answers} in all, about ${minutes} min a day; most on ${dayWords(most.day)}, ${Math.round(most.answers)}.`;
}
