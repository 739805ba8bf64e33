import { type Card, isLineCard } from '../../cards/index.ts';
import { patternOf, toNumber } from '../../charts/index.ts';
import { PlacesFigure } from '../../figure/index.ts';
import { MIRRORS, type Mirror } from '../../table/index.ts';
import type { Model } from '../state/model.ts';

/** Shows where today's questions start. It draws only the places, without paths and numbers. */
export function StartsFigure(props: {
  readonly model: Pick<Model, 'chart'>;
  readonly cards: readonly Card[];
}) {
  const { model, cards } = props;
  const chart = model.chart.value;
  const { table } = chart.setting;
  const frame = { table, mirror: MIRRORS[0] as Mirror };
  const places = new Map(
    cards.filter(isLineCard).map((card) => {
      const { start } = patternOf(card.pattern);
      return [`${start.rail} ${start.from} ${card.start}`, card];
    }),
  );
  return (
    <div class="hero">
      <PlacesFigure
        frame={frame}
        label={`The table. Today’s lines start from ${places.size} places.`}
        marks={[...places.values()].map((card) => {
          const { start } = patternOf(card.pattern);
          return { tone: 'start', count: start, diamond: toNumber(card.start) };
        })}
      />
      <p class="soft-words">
        {places.size > 0
          ? 'Where today’s lines start'
          : `${chart.document.name}, foot rail at the top`}
      </p>
    </div>
  );
}
