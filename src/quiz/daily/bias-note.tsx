import { useEffect, useState } from 'preact/hooks';
import type { Card } from '../../cards/index.ts';
import type { Chart } from '../../charts/index.ts';
import type { LogState } from '../../scheduler/index.ts';

/**
 * Warns of a persistent bias on a line. It shows only when the line's number is on the screen,
 * because it would otherwise give the answer away. Its code loads and runs after the screen is
 * drawn. If the code cannot be loaded, nothing shows, and the next answer tries again.
 */
export function BiasNote(props: {
  readonly log: LogState;
  readonly cards: readonly Card[];
  readonly card: Card;
  readonly today: number;
  readonly chart: Chart;
}) {
  const { log, cards, card, today, chart } = props;
  const [cue, setCue] = useState<string | null>(null);
  useEffect(() => {
    if (card.kind !== 'number' || log.memories.size === 0) return;
    let isShown = true;
    import('./bias-cue.ts').then(
      ({ biasCue }) => isShown && setCue(biasCue(log.memories, cards, card, today, chart)),
      () => undefined,
    );
    return () => {
      isShown = false;
    };
  }, [log, cards, card, today, chart]);
  return cue === null ? null : <p class="bias-cue">{cue}</p>;
}
