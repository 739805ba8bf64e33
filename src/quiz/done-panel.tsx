import type { Card } from '../cards/index.ts';
import { formatDecimal, patternOf } from '../charts/index.ts';
import { nextWords, type Summary } from './summary.ts';
import { movementWords } from './words.ts';

/** The end of a session. */
export function DonePanel({
  summary,
  leave,
}: {
  readonly summary: Summary;
  readonly leave: () => void;
}) {
  const { answers, counts, missed, next } = summary;
  return (
    <section class="done">
      <h1>Nothing left for today</h1>
      {answers === 0 ? (
        <p>
          Nothing is due, and no new line is left for today. How many are met a day is in Settings.
        </p>
      ) : (
        <p>
          {answers} {answers === 1 ? 'answer' : 'answers'} today:{' '}
          {counts.map(({ outcome, count }) => `${count} ${outcome}`).join(', ')}.
        </p>
      )}
      {missed.length > 0 && (
        <>
          <h2>To look at</h2>
          <ul class="missed">
            {missed.map((card) => (
              <li key={card.id}>{missedWords(card)}</li>
            ))}
          </ul>
        </>
      )}
      <p class="soft-words">{nextWords(next)}</p>
      <button type="button" class="key call" onClick={leave}>
        To Today
      </button>
    </section>
  );
}

function missedWords(card: Card): string {
  const { soft, medium, firm } = card.line.numbers;
  const from = `${patternOf(card.pattern).name} from ${formatDecimal(card.start)}`;
  if (card.kind === 'number') return `${from}: ${formatDecimal(medium.printed)}`;
  return `${from}: soft ${movementWords(soft.printed, medium.printed)}, firm ${movementWords(firm.printed, medium.printed)}`;
}
