import { holdPercent } from '../../figure/index.ts';
import { cardName } from '../../quiz/index.ts';
import { formatScreen } from '../router.ts';
import type { MemoryData } from './data.ts';
import { type HeldLine, weakestOf } from './lines.ts';

/** How many lines are listed. */
const LISTED = 10;

/** Lists the lines that the player is most likely to get wrong, each with a link to its page. */
export function WeakSheet(props: {
  readonly data: MemoryData;
  readonly lines: readonly HeldLine[];
}) {
  const weak = weakestOf(props.lines, props.data.log, LISTED);
  return (
    <section class="sheet" aria-labelledby="weak-title">
      <h2 id="weak-title">Weakest lines</h2>
      {weak.length === 0 ? (
        <p class="soft-words">No line was asked yet.</p>
      ) : (
        <WeakList lines={weak} />
      )}
    </section>
  );
}

export function WeakList(props: {
  readonly lines: readonly (HeldLine & { readonly hold: number })[];
}) {
  return (
    <ol class="rows weak-lines">
      {props.lines.map(({ card, hold }) => (
        <li key={card.id}>
          <a href={formatScreen({ name: 'pattern', pattern: card.pattern, start: card.start })}>
            {cardName(card)}
          </a>
          <span class="bar" aria-hidden="true">
            <span style={{ inlineSize: `${100 * hold}%` }} />
          </span>
          <span class="number">{holdPercent(hold)} %</span>
        </li>
      ))}
    </ol>
  );
}
