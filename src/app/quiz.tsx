import { useMemo } from 'preact/hooks';
import { createSession, type QuizPorts, QuizScreen } from '../quiz/index.ts';
import { sessionPorts } from './model.ts';
import type { AppProps } from './shell.tsx';

/** The daily session; it lives as long as its chart, its cards and the minutes chosen. */
export function Quiz({
  model,
  go,
  stopwatch,
  minutes,
}: AppProps & { readonly minutes: QuizPorts['minutes'] }) {
  const chart = model.chart.value;
  const cards = model.cards.value;
  const session = useMemo(
    () =>
      createSession({
        chart,
        cards,
        ...sessionPorts(model),
        stopwatch,
        minutes,
      }),
    [model, chart, cards, stopwatch, minutes],
  );
  return (
    <QuizScreen
      session={session}
      chart={chart}
      cards={cards}
      log={model.log.value}
      today={model.day.value}
      settings={model.settings.value}
      leave={() => go({ name: 'today' })}
      goOn={() => go({ name: 'quiz', minutes: null })}
      openLine={({ pattern, start }) => go({ name: 'pattern', pattern, start })}
    />
  );
}
