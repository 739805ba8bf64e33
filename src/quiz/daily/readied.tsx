import { render } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { Chart } from '../../charts/index.ts';
import type { Settings } from '../../store/index.ts';
import type { Revealed } from '../stage/answer-stage.tsx';
import { CardStage } from '../stage/card-stage.tsx';
import { onIdle } from '../stage/idle.ts';
import type { Shown } from '../stage/phase.ts';

/** Where the browser does not say when it is idle, milliseconds. */
const LATER = 500;

/**
 * Tells an answer aside once, while the player thinks about the first question: code that has never
 * run takes twice as long, and the first answer would wait for it.
 */
export function useReadied(chart: Chart, shown: Shown | null, settings: Settings): void {
  const isReady = useRef(false);
  useEffect(() => {
    if (!shown || isReady.current) return;
    return onIdle(() => {
      isReady.current = true;
      tellAside(chart, shown, settings);
    }, LATER);
  }, [chart, shown?.question, settings]);
}

function tellAside(chart: Chart, shown: Shown, settings: Settings): void {
  const aside = document.createElement('div');
  const revealed: Revealed = {
    given: null,
    settings,
    problem: null,
    onNext: () => undefined,
    onTakeBack: () => undefined,
  };
  render(<CardStage chart={chart} shown={shown} revealed={revealed} />, aside);
  render(null, aside);
}
