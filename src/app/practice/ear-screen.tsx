import { useEffect, useMemo } from 'preact/hooks';
import { createEarSession, EarDone, EarReady, EarStage } from '../../quiz/index.ts';
import { browserEar } from '../device/ear-device.ts';
import type { AppPorts } from '../ports.ts';
import { sessionPorts } from '../state/model.ts';

/** Asks the questions aloud, so that the player's eyes are free. */
export function EarScreen({ model, go }: Pick<AppPorts, 'model' | 'go'>) {
  const ear = useMemo(browserEar, []);
  const chart = model.chart.value;
  const cards = model.cards.value;
  const session = useMemo(
    () => createEarSession({ ...ear, chart, cards, ...sessionPorts(model) }),
    [model, ear, chart, cards],
  );
  useEffect(session.enter, [session]);
  useEffect(darkenBrowser, []);
  const phase = session.phase.value;
  const leave = () => go({ name: 'today' });
  switch (phase.at) {
    case 'ready':
      return (
        <EarReady
          session={session}
          pauseSeconds={model.settings.value.pauseSeconds}
          leave={leave}
        />
      );
    case 'done':
      return (
        <EarDone
          why={phase.why}
          score={session.score.value}
          leave={leave}
          quiz={() => go({ name: 'quiz', minutes: model.settings.value.minutes })}
        />
      );
    default:
      return <EarStage session={session} phase={phase} leave={leave} />;
  }
}

/** Makes the browser's bars as dark as the screen, whatever the theme. */
function darkenBrowser(): () => void {
  const meta = document.createElement('meta');
  meta.name = 'theme-color';
  meta.content = '#060807';
  // The browser uses the first element that matches.
  document.head.prepend(meta);
  return () => meta.remove();
}
