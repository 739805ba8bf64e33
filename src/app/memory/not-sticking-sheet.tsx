import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { type Card, isLineCard, toleranceFor } from '../../cards/index.ts';
import { notSticking } from '../../scheduler/index.ts';
import { toleranceOf } from '../../store/index.ts';
import { type DrillModel, freshCode, plannedDrill } from '../parts/drill-plan.ts';
import { formatScreen } from '../router.ts';
import type { Model } from '../state/model.ts';
import { drillLabel, drillOf, helpFor, introWords, listed, nameOf } from './not-sticking.ts';
import { SetAsideKeys } from './set-aside-keys.tsx';

type NotStickingModel = DrillModel & Pick<Model, 'log' | 'append' | 'today'>;

/**
 * Lists cards that are forgotten in spite of many answers, and what helps. Shows nothing if there are
 * none.
 */
export function NotStickingSheet({ model }: { readonly model: NotStickingModel }) {
  const log = model.log.value;
  const cards = model.cards.value;
  const { kinds } = model.settings.value;
  const all = useMemo(() => listed(notSticking(cards, log), kinds), [cards, log, kinds]);
  const [said, say] = useState<string | null>(null);
  const title = useRef<HTMLHeadingElement>(null);
  // The key that was pressed is gone, so the heading of the sheet takes the focus.
  useEffect(() => {
    if (said !== null) title.current?.focus();
  }, [said]);
  if (all.length === 0 && said === null) return null;
  return (
    <section class="sheet not-sticking" aria-labelledby="not-sticking-title">
      <h2 id="not-sticking-title" tabIndex={-1} ref={title}>
        Not sticking
      </h2>
      {all.length > 0 && (
        <>
          <p>{introWords(all)}</p>
          <ul class="rows">
            {all.map((card) => (
              <Item
                key={card.id}
                card={card}
                model={model}
                onAside={() => say(`Set aside: ${nameOf(card)}.`)}
              />
            ))}
          </ul>
        </>
      )}
      <p class="soft-words" role="status">
        {said}
      </p>
    </section>
  );
}

function Item(props: {
  readonly card: Card;
  readonly model: NotStickingModel;
  readonly onAside: () => void;
}) {
  const { card, model } = props;
  const { pattern } = card;
  const name = nameOf(card);
  const chart = model.chart.value;
  const tolerance = toleranceFor(toleranceOf(model.settings.value), chart.document.printStep);
  const start = isLineCard(card) ? card.start : null;
  const code = useMemo(() => freshCode(model, plannedDrill(model, drillOf(card))), [card, model]);
  return (
    <li>
      <a class="not-sticking-line" href={formatScreen({ name: 'pattern', pattern, start })}>
        {name}
      </a>
      <div class="soft-words">
        {helpFor(chart, card, tolerance).map((words) => (
          <p key={words}>{words}</p>
        ))}
      </div>
      <div class="actions">
        <a class="key" href={formatScreen({ name: 'drill', code })}>
          {drillLabel(card)}
        </a>
        <SetAsideKeys
          model={model}
          lines={[card.lineId]}
          label="Set aside"
          spoken={`Set aside … ${name}`}
          onDone={props.onAside}
        />
      </div>
    </li>
  );
}
