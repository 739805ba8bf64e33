import { useEffect, useRef } from 'preact/hooks';
import type { Chart } from '../../charts/index.ts';
import type { LoggedShot } from '../state/tonight.ts';
import { choiceOf } from './choice.ts';

interface ShotListProps {
  readonly logged: readonly LoggedShot[];
  readonly chart: Chart;
  readonly remove: (id: string) => Promise<boolean>;
  /** Called when the list has no key left that could take the focus. */
  readonly emptied: () => void;
}

/** Lists tonight's shots, newest first, each with a key that takes it back. */
export function ShotList(props: ShotListProps) {
  const { logged, chart } = props;
  const { list, remove } = useRemoving(props);
  if (logged.length === 0) return null;
  return (
    <section class="sheet shots" aria-labelledby="shots-title">
      <h2 id="shots-title">Tonight’s shots</h2>
      <ol class="rows" reversed ref={list}>
        {[...logged].reverse().map((shot, n) => {
          const words = choiceOf(chart, shot);
          return (
            <li key={shot.id}>
              <span class="number">{logged.length - n}</span>
              <span>{words}</span>
              <button
                type="button"
                class="plain"
                aria-label={`Remove shot ${logged.length - n}: ${words}`}
                onClick={() => void remove(shot.id, n)}
              >
                Remove
              </button>
            </li>
          );
        })}
      </ol>
    </section>
  );
}

/** Removes a shot, and moves the focus to the key that takes the place of the pressed one. */
function useRemoving({ logged, remove, emptied }: ShotListProps) {
  const list = useRef<HTMLOListElement>(null);
  const pressed = useRef<number | null>(null);
  useEffect(() => {
    const at = pressed.current;
    pressed.current = null;
    if (at === null) return;
    const keys = list.current?.querySelectorAll('button');
    const next = keys?.[Math.min(at, keys.length - 1)];
    if (next) next.focus();
    else emptied();
  }, [logged]);
  return {
    list,
    remove: async (id: string, at: number): Promise<void> => {
      pressed.current = at;
      if (!(await remove(id))) pressed.current = null;
    },
  };
}
