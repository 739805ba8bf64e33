import { useState } from 'preact/hooks';
import {
  type Chart,
  DOUBTED,
  type Evening,
  formatDecimal,
  patternOf,
  type Tonight,
} from '../charts/index.ts';
import { ShotPlot } from '../figure/index.ts';
import { SPEEDS } from '../table/index.ts';
import type { Model } from './model.ts';
import { SaveTable } from './table-day-save.tsx';
import {
  amountWords,
  conditionWords,
  counted,
  furthest,
  movedWords,
  plotWords,
  toGoWords,
  tonightWords,
} from './table-day-words.ts';
import type { LoggedShot } from './tonight.ts';

/** What an amount that is said is rounded to is half of this: what agrees at all. */
const NEAR = 0.1;

interface ResultsProps {
  readonly model: Model;
  readonly chart: Chart;
  readonly shots: readonly LoggedShot[];
  /** Null until it is worked out. */
  readonly evening: Evening | null;
}

export function Results({ model, chart, shots, evening }: ResultsProps) {
  return (
    <div class="table-day-results">
      <section class="sheet tonight" aria-labelledby="tonight-title" aria-busy={!evening}>
        <h2 id="tonight-title">Tonight</h2>
        {evening ? <ToSay evening={evening} /> : <p class="soft-words">Working it out …</p>}
      </section>
      {evening && shots.length > 0 && (
        <TheTable model={model} chart={chart} shots={shots} evening={evening} />
      )}
    </div>
  );
}

function ToSay({ evening: { tonight, toGo } }: { readonly evening: Evening }) {
  const figures = tonight.why !== 'all made' && tonight.why !== 'too large';
  const togo = figures ? toGoWords(toGo) : null;
  return (
    <>
      <p class="say" role="status">
        {tonightWords(tonight)}
      </p>
      {figures &&
        tonight.amounts.map((amount) => (
          <p key={amount.of} class="soft-words">
            {amountWords(amount)}
          </p>
        ))}
      {togo && <p class="soft-words">{togo}</p>}
      <Doubted tonight={tonight} />
      {tonight.shots.length > 1 && (
        <ShotPlot
          points={tonight.shots.map(({ left, weight }, n) => ({
            x: n + 1,
            error: left,
            good: weight >= DOUBTED,
          }))}
          tolerance={NEAR}
          label={plotWords(tonight, NEAR)}
        />
      )}
    </>
  );
}

/** Shots that the fit sets little store by, or none. */
function Doubted({ tonight: { shots, leftOut } }: { readonly tonight: Tonight }) {
  const wild = shots.flatMap(({ weight }, n) => (weight < DOUBTED ? [n + 1] : []));
  return (
    <>
      {wild.length > 0 && (
        <p class="soft-words">
          {wild.length === 1 ? 'One shot is' : `${wild.length} shots are`} far from the others and
          counts little: number {wild.join(', ')} in the plot.
        </p>
      )}
      {leftOut.length > 0 && (
        <p class="soft-words">
          {counted(leftOut.length, 'shot')} left out: on the chart’s table the ball could not have
          got there.
        </p>
      )}
    </>
  );
}

/** The condition that the shots tell of, and what it would do to the chart. */
function TheTable({ model, chart, shots, evening }: ResultsProps & { readonly evening: Evening }) {
  const { condition, moved } = evening;
  const [said, say] = useState('');
  const other = condition.ok && condition.fit.differs;
  const all = chart.lines.length * SPEEDS.length;
  return (
    <section class="sheet the-table" aria-labelledby="the-table-title">
      <h2 id="the-table-title">The table itself</h2>
      {conditionWords(chart, condition).map((say) => (
        <p key={say}>{say}</p>
      ))}
      {other && <p>{movedWords(moved, all)}</p>}
      {moved.length > 0 && (
        <ul class="moved-numbers">
          {furthest(moved, 5).map(({ pattern, start, speed, from, to }) => (
            <li key={`${pattern} ${start} ${speed}`}>
              <span>
                {patternOf(pattern).name} from {formatDecimal(start)}, {speed}
              </span>
              <span class="number">
                {formatDecimal(from)} → {formatDecimal(to)}
              </span>
            </li>
          ))}
        </ul>
      )}
      {other && (
        <SaveTable
          model={model}
          chart={chart}
          fit={condition.fit}
          shots={shots.length}
          saved={say}
        />
      )}
      <p role="status">{said}</p>
    </section>
  );
}
