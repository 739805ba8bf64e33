import { isolated, type PatternId, patternOf } from '../../charts/index.ts';
import { heldOn } from '../../scheduler/index.ts';
import { formatScreen } from '../router.ts';
import type { Model } from '../state/model.ts';

type HeldModel = Pick<Model, 'log' | 'cards' | 'chart' | 'day'>;

/** Shows how many lines the player holds now, in all and by pattern. */
export function HeldSheet({ model }: { readonly model: HeldModel }) {
  const chart = model.chart.value;
  const held = heldOn(model.cards.value, model.log.value, model.day.value);
  return (
    <section class="sheet held" aria-labelledby="held-title">
      <h2 id="held-title">You know</h2>
      <p class="held-total">
        <strong>{Math.round(held.expected)}</strong> of {held.of}{' '}
        {held.low < held.high && held.expected > 0 && (
          <span class="soft-words">
            likely {held.low}–{held.high}
          </span>
        )}
      </p>
      <ul class="bars">
        {chart.patterns.map((id) => (
          <PatternBar key={id} model={model} id={id} />
        ))}
      </ul>
      <p class="soft-words">
        {isolated(chart.document.name)}: {held.of} {held.of === 1 ? 'line' : 'lines'} by their
        numbers. <a href={formatScreen({ name: 'memory' })}>More about what you know</a>
      </p>
    </section>
  );
}

function PatternBar({ model, id }: { readonly model: HeldModel; readonly id: PatternId }) {
  const cards = model.cards.value.filter((card) => card.pattern === id);
  const { expected, of } = heldOn(cards, model.log.value, model.day.value);
  // A pattern without lines, or without lines in the player's level, has nothing to hold.
  if (of === 0) return null;
  return (
    <li>
      <span>{patternOf(id).name}</span>
      <Bar value={expected} of={of} />
      <span class="number">
        {Math.round(expected)}/{of}
      </span>
    </li>
  );
}

/** A bar that is hidden from screen readers, because the same numbers are written beside it. */
function Bar({ value, of }: { readonly value: number; readonly of: number }) {
  return (
    <div class="bar" aria-hidden="true">
      <span style={{ inlineSize: `${(100 * value) / of}%` }} />
    </div>
  );
}
