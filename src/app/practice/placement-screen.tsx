import './placement.css';
import { useMemo, useState } from 'preact/hooks';
import type { PatternId } from '../../charts/index.ts';
import { createPlacement, PlacementRun } from '../../quiz/index.ts';
import type { AppPorts } from '../ports.ts';
import { ChoosePatterns } from './placement-choice.tsx';

type PlacementPorts = Pick<AppPorts, 'model' | 'go' | 'stopwatch'>;

/**
 * Lets players prove the lines that they know already, instead of meeting those lines one by one.
 */
export function PlacementScreen(props: PlacementPorts) {
  const [patterns, begin] = useState<readonly PatternId[] | null>(null);
  const [tried, setTried] = useState<readonly PatternId[]>([]);
  const again = (finished: readonly PatternId[]): void => {
    setTried([...tried, ...finished]);
    begin(null);
    window.scrollTo(0, 0);
  };
  if (!patterns) return <ChoosePatterns model={props.model} tried={tried} begin={begin} />;
  return <Run {...props} patterns={patterns} again={again} />;
}

function Run(
  props: PlacementPorts & {
    readonly patterns: readonly PatternId[];
    readonly again: (finished: readonly PatternId[]) => void;
  },
) {
  const { model, go, stopwatch, patterns, again } = props;
  const chart = model.chart.value;
  const cards = model.cards.value;
  const placement = useMemo(
    () => createPlacement({ ...model, chart, cards, stopwatch, patterns }),
    [model, chart, cards, stopwatch, patterns],
  );
  return (
    <PlacementRun
      placement={placement}
      chart={chart}
      settings={model.settings.value}
      again={() => {
        const { patterns: placed } = placement.placed.peek();
        again(placed.filter(({ finished }) => finished).map(({ pattern }) => pattern));
      }}
      leave={() => go({ name: 'today' })}
    />
  );
}
