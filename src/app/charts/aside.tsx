import { useState } from 'preact/hooks';
import { markLine } from '../../quiz/index.ts';
import type { Model } from '../state/model.ts';
import { namedLines } from './line-names.ts';

export type AsideModel = Pick<Model, 'log' | 'cards' | 'append' | 'today' | 'now'>;

/**
 * Lists the lines that were set aside and are not asked, each with a key to take it in again. Shows
 * nothing if there are no such lines.
 */
export function SetAsideSheet({ model }: { readonly model: AsideModel }) {
  const lines = namedLines(model.log.value.aside, model.cards.value);
  const [said, say] = useState<string | null>(null);
  if (lines.length === 0 && said === null) return null;
  const restore = async (id: string, name: string): Promise<void> => {
    const problem = await markLine(model, { type: 'set aside', line: id, aside: false });
    say(problem ?? `${name} is asked again.`);
  };
  return (
    <section class="sheet aside-lines" aria-labelledby="aside-title">
      <h2 id="aside-title">Set aside</h2>
      {lines.length > 0 ? (
        <p class="soft-words">Not asked until you take them in again.</p>
      ) : (
        <p class="soft-words">Nothing is set aside.</p>
      )}
      <ul>
        {lines.map(({ id, name, elsewhere }) => (
          <li key={id}>
            <span>
              {name}
              {elsewhere && (
                <span class="soft-words"> of another chart, or of numbers named otherwise</span>
              )}
            </span>
            <button
              type="button"
              class="key"
              aria-label={`Take in again: ${name}`}
              onClick={() => void restore(id, name)}
            >
              Take in again
            </button>
          </li>
        ))}
      </ul>
      <p class="soft-words" role="status">
        {said}
      </p>
    </section>
  );
}
