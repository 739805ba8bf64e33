import {
  drillWords,
  figuresOf,
  isUnfinished,
  type Run,
  specOf,
  weakName,
  weakWords,
} from '../../quiz/index.ts';
import { dayWords } from '../parts/day-words.ts';
import { freshCode, type WeakDrill } from '../parts/drill-plan.ts';
import { formatScreen } from '../router.ts';
import type { Model } from '../state/model.ts';

/** How many drills are listed. */
const LISTED = 20;

/**
 * Returns the address of the result of a run. The point separates the two parts, because no code
 * contains a point.
 */
export function runAddress({ code, run }: Pick<Run, 'code' | 'run'>): string {
  return `${code}.${run}`;
}

/** Says in two lines what a run asked, or that its code cannot be read. */
export function runWords(run: Run): readonly [string, string] {
  const spec = specOf(run);
  return spec ? drillWords(spec) : ['A drill of another version', ''];
}

/** Lists the drills that were played, newest first. */
export function DrillHistory({ runs }: { readonly runs: readonly Run[] }) {
  if (runs.length === 0) return null;
  const listed = [...runs].reverse().slice(0, LISTED);
  return (
    <section class="sheet drill-history" aria-labelledby="drilled">
      <h2 id="drilled">Drilled so far</h2>
      <ul>
        {listed.map((run) => (
          <li key={runAddress(run)}>
            <Played run={run} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function Played({ run }: { readonly run: Run }) {
  const [what, where] = runWords(run);
  const { within, asked } = figuresOf(run.questions);
  return (
    <a href={formatScreen({ name: 'drill', code: runAddress(run) })}>
      <span class="drill-day">{dayWords(run.day)}</span>
      <span class="drill-what">
        {what}
        <span class="soft-words">
          {where}
          {isUnfinished(run) ? ' · not finished' : ''}
        </span>
      </span>
      <strong>
        {within} of {asked}
      </strong>
    </a>
  );
}

/** Offers drills for weak zones; a tap begins one. */
export function WeakDrills(props: {
  readonly model: Pick<Model, 'now'>;
  readonly weak: readonly WeakDrill[];
  readonly start: (code: string) => void;
}) {
  const { model, weak, start } = props;
  if (weak.length === 0) return null;
  return (
    <section class="sheet drill-weak" aria-labelledby="weak">
      <h2 id="weak">Drill what is weak</h2>
      <ul>
        {weak.map(({ weak: zone, drill }) => (
          <li key={weakName(zone)}>
            <button type="button" class="key" onClick={() => start(freshCode(model, drill))}>
              <span>{weakName(zone)}</span>
              <span class="soft-words">{weakWords(zone)}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
