import { type Held, heldOn } from '../../scheduler/index.ts';
import type { Occasion } from '../../store/index.ts';
import { longDayWords } from '../parts/day-words.ts';
import { heldWords } from '../parts/occasion-line.tsx';
import type { MemoryData } from './data.ts';

/** Lines held now; with an occasion ahead, also those held on its day. */
export function HeldNow({
  data,
  occasion,
}: {
  readonly data: MemoryData;
  readonly occasion: Occasion | null;
}) {
  const { cards, log, today, forecast } = data;
  const held = heldOn(cards, log, today);
  return (
    <section class="sheet held" aria-labelledby="held-title">
      <h2 id="held-title">You know</h2>
      <p class="held-total">
        <strong>{Math.round(held.expected)}</strong> of {held.of} lines{' '}
        <span class="soft-words">{intervalWords(held)}</span>
      </p>
      {occasion && occasion.day > today && forecast && (
        <p>
          On {longDayWords(occasion.day, today)}: {heldWords(forecast.held)}
        </p>
      )}
      <p class="soft-words">
        A line counts for as much as the chance that you call its number right.
      </p>
    </section>
  );
}

function intervalWords({ expected, low, high }: Held): string {
  return low < high && expected > 0 ? `now; likely ${low}–${high}` : 'now';
}
