import type { Chart } from '../charts/index.ts';
import { choiceOf } from './table-day-choice.ts';
import type { LoggedShot } from './tonight.ts';

/** Tonight's shots, the newest first; each can be taken back. */
export function ShotList(props: {
  readonly logged: readonly LoggedShot[];
  readonly chart: Chart;
  readonly remove: (id: string) => Promise<boolean>;
}) {
  const { logged, chart } = props;
  if (logged.length === 0) return null;
  return (
    <section class="sheet shots" aria-labelledby="shots-title">
      <h2 id="shots-title">Tonight’s shots</h2>
      <ol reversed>
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
                onClick={() => void props.remove(shot.id)}
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
