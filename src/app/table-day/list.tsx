import { useEffect, useRef } from 'preact/hooks';
import type { Chart } from '../../charts/index.ts';
import type { LoggedShot } from '../state/tonight.ts';
import { choiceOf } from './choice.ts';

/** Tonight's shots, the newest first; each can be taken back. */
export function ShotList(props: {
  readonly logged: readonly LoggedShot[];
  readonly chart: Chart;
  readonly remove: (id: string) => Promise<boolean>;
  /** There is no key left here for the focus to go to. */
  readonly emptied: () => void;
}) {
  const { logged, chart } = props;
  const list = useRef<HTMLOListElement>(null);
  // Which key was pressed: the focus goes to the one that takes its place.
  const pressed = useRef<number | null>(null);
  useEffect(() => {
    const at = pressed.current;
    pressed.current = null;
    if (at === null) return;
    const keys = list.current?.querySelectorAll('button');
    const next = keys?.[Math.min(at, keys.length - 1)];
    if (next) next.focus();
    else props.emptied();
  }, [logged]);
  const remove = async (id: string, at: number): Promise<void> => {
    pressed.current = at;
    if (!(await props.remove(id))) pressed.current = null;
  };
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
