import { useEffect, useMemo } from 'preact/hooks';
import { createSession, type QuizPorts, QuizScreen } from '../../quiz/index.ts';
import type { AppPorts } from '../ports.ts';
import { sessionPorts } from '../state/model.ts';

type DailyProps = Pick<AppPorts, 'model' | 'go' | 'stopwatch'> & Pick<QuizPorts, 'minutes'>;

/** The daily session. If an occasion is set, the session waits for its plan. */
export function Quiz(props: DailyProps) {
  const { model } = props;
  const waits = model.outlook.value.at === 'wanted';
  useEffect(() => {
    if (waits) model.replan();
  }, [model, waits]);
  return waits ? <main class="quiz" aria-busy="true" /> : <PlannedQuiz {...props} />;
}

/** Keeps one session as long as the chart, the cards and the chosen minutes stay the same. */
function PlannedQuiz({ model, go, stopwatch, minutes }: DailyProps) {
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
