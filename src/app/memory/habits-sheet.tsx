import { timePerQuestion } from '../../quiz/index.ts';
import type { MemoryData } from './data.ts';
import { habitSentences } from './habits-words.ts';
import { Working } from './history.tsx';

/** Tells the player's own numbers, with which forecasts are made. */
export function HabitsSheet(props: { readonly data: Pick<MemoryData, 'history' | 'log'> }) {
  const { history, log } = props.data;
  return (
    <section class="sheet" aria-labelledby="habits-title">
      <h2 id="habits-title">How your memory works</h2>
      {history ? (
        <Sentences all={habitSentences(history.habits, timePerQuestion(log))} />
      ) : (
        <Working />
      )}
    </section>
  );
}

function Sentences(props: { readonly all: readonly string[] }) {
  const [first, ...others] = props.all;
  return (
    <>
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
    </>
  );
}
