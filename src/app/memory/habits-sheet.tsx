import { useMemo } from 'preact/hooks';
import { timePerQuestion } from '../../quiz/index.ts';
import { habitsOf } from '../../scheduler/index.ts';
import type { MemoryData } from './data.ts';
import { habitSentences } from './habits-words.ts';

/** Tells the player's own numbers, with which forecasts are made. */
export function HabitsSheet({ data }: { readonly data: Pick<MemoryData, 'log' | 'today'> }) {
  const { log, today } = data;
  const habits = useMemo(() => habitsOf(log, today), [log, today]);
  const [first, ...others] = habitSentences(habits, timePerQuestion(log));
  return (
    <section class="sheet" aria-labelledby="habits-title">
      <h2 id="habits-title">How your memory works</h2>
      <p>{first}</p>
      {others.length > 0 && (
        <>
          <ul class="bulleted">
            {others.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
          <p class="soft-words">
            Forecasts use these numbers. They do not change what you are asked.
          </p>
        </>
      )}
    </section>
  );
}
