import { isLineCard, type LineCard } from '../../cards/index.ts';
import { formatDecimal, patternOf, toDecimal } from '../../charts/index.ts';
import type { MovedCard } from '../../scheduler/index.ts';
import { formatScreen } from '../router.ts';
import type { Model } from '../state/model.ts';
import { movedHead, movedNote } from './moved-words.ts';

/** How many lines are listed at once; a tap shows the others. */
const NAMED = 4;

/**
 * Lists lines of the chart in use that a revision moved. A line stays listed until the player has
 * answered it.
 */
export function MovedSheet({ model }: { readonly model: Pick<Model, 'log' | 'cards'> }) {
  const { moved } = model.log.value;
  const lines = movedLines(model.cards.value.filter(isLineCard), moved);
  if (lines.length === 0) return null;
  const said = { count: lines.length, elsewhere: lines.every(({ change }) => change.elsewhere) };
  const more = lines.slice(NAMED);
  return (
    <section class="sheet moved-lines" aria-labelledby="moved-title">
      <h2 id="moved-title">{movedHead(said)}</h2>
      <MovedList lines={lines.slice(0, NAMED)} />
      {more.length > 0 && (
        <details>
          <summary>And {more.length} more</summary>
          <MovedList lines={more} />
        </details>
      )}
      <p class="soft-words">{movedNote(said)}</p>
    </section>
  );
}

function MovedList({ lines }: { readonly lines: readonly MovedLine[] }) {
  return (
    <ul>
      {lines.map(({ card, change }) => (
        <li key={card.lineId}>
          <a href={formatScreen({ name: 'pattern', pattern: card.pattern, start: card.start })}>
            {patternOf(card.pattern).name} from {formatDecimal(card.start)}
          </a>{' '}
          {card.kind === 'number' && <span class="number">{numberWords(change)}</span>}
        </li>
      ))}
    </ul>
  );
}

interface MovedLine {
  readonly card: LineCard;
  readonly change: MovedCard;
}

/** Returns each moved line once. Its number card stands for the line if that card moved. */
function movedLines(
  cards: readonly LineCard[],
  moved: ReadonlyMap<string, MovedCard>,
): readonly MovedLine[] {
  const lines = new Map<string, MovedLine>();
  for (const card of cards) {
    const change = moved.get(card.id);
    if (change && !lines.has(card.lineId)) lines.set(card.lineId, { card, change });
  }
  return [...lines.values()];
}

function numberWords({ from, to }: MovedCard): string {
  const words = (value: number | undefined) => formatDecimal(toDecimal(value ?? 0));
  return `${words(from[0])} → ${words(to[0])}`;
}
