import { isLineCard, type LineCard } from '../cards/index.ts';
import { formatDecimal, patternOf, toDecimal } from '../charts/index.ts';
import type { MovedCard } from '../scheduler/index.ts';
import type { Model } from './model.ts';
import { formatScreen } from './router.ts';

/** So many lines are named; of the others the number is told. */
const NAMED = 4;

/** Lines of the chart in use that a revision moved, until they have been answered. */
export function MovedSheet({ model }: { readonly model: Model }) {
  const { moved } = model.log.value;
  const lines = movedLines(model.cards.value.filter(isLineCard), moved);
  if (lines.length === 0) return null;
  return (
    <section class="sheet moved-lines" aria-labelledby="moved-title">
      <h2 id="moved-title">{headWords(lines)}</h2>
      <ul>
        {lines.slice(0, NAMED).map(({ card, change }) => (
          <li key={card.lineId}>
            <a href={formatScreen({ name: 'pattern', pattern: card.pattern, start: card.start })}>
              {patternOf(card.pattern).name} from {formatDecimal(card.start)}
            </a>{' '}
            {card.kind === 'number' && <span class="number">{numberWords(change)}</span>}
          </li>
        ))}
      </ul>
      <p class="soft-words">
        {lines.length > NAMED && `And ${lines.length - NAMED} more. `}
        {allElsewhere(lines)
          ? 'You know them from another table, with other numbers: they come today, to be learned for this one.'
          : 'The chart was revised: they come back today, to be learned anew.'}
      </p>
    </section>
  );
}

interface MovedLine {
  readonly card: LineCard;
  readonly change: MovedCard;
}

function allElsewhere(lines: readonly MovedLine[]): boolean {
  return lines.every(({ change }) => change.elsewhere);
}

function headWords(lines: readonly MovedLine[]): string {
  const count = lines.length === 1 ? 'One line' : `${lines.length} lines`;
  if (!allElsewhere(lines)) return `${count} moved`;
  return `${count} ${lines.length === 1 ? 'differs' : 'differ'} from the table you know`;
}

/** Each line once: by its number if that moved. */
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
