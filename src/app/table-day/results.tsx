import type { ComponentProps } from 'preact';
import { useState } from 'preact/hooks';
import { type Chart, formatDecimal, patternOf } from '../../charts/index.ts';
import { ShotPlot } from '../../figure/index.ts';
import { DOUBTED, type Evening } from '../../shots/index.ts';
import { SPEEDS } from '../../table/index.ts';
import type { LoggedShot } from '../state/tonight.ts';
import { conditionWords, furthest, movedWords, patternsWords, sayWords } from './fit-words.ts';
import { SaveTable } from './save.tsx';
import { amountWords, counted, doubtedWords, plotWords, toGoWords } from './words.ts';

/**
 * Shots that agree are within this distance, in diamonds. It is twice the step to which sentences
 * round amounts.
 */
const NEAR = 0.1;
/** How many patterns are named: as many as a player can remember. */
const PATTERNS_SAID = 3;

interface ResultsProps {
  readonly model: ComponentProps<typeof SaveTable>['model'];
  readonly chart: Chart;
  readonly shots: readonly LoggedShot[];
  /** Tonight's results; null until they are computed. */
  readonly evening: Evening | null;
}

export function Results({ model, chart, shots, evening }: ResultsProps) {
  return (
    <div class="table-day-results">
      <section class="sheet tonight" aria-labelledby="tonight-title" aria-busy={!evening}>
        <h2 id="tonight-title">Tonight</h2>
        {evening ? (
          <ToSay chart={chart} evening={evening} />
        ) : (
          <p class="soft-words">Working it out …</p>
        )}
      </section>
      {evening && shots.length > 0 && (
        <TheTable model={model} chart={chart} shots={shots} evening={evening} />
      )}
    </div>
  );
}

function ToSay(props: { readonly chart: Chart; readonly evening: Evening }) {
  const { chart, evening } = props;
  const { tonight, condition, account } = evening;
  const table = account === 'table' && condition.ok;
  const shots = table ? condition.fit.shots : tonight.shots;
  return (
    <>
      <p class="say" role="status">
        {sayWords(chart, evening)}
      </p>
      {chart.naming !== 'through' && tonight.corrections.length > 0 && (
        <p class="soft-words">
          Counted through the sight: a number at the nose moves by a little less. Look up tells
          each.
        </p>
      )}
      {table ? <Patterns evening={evening} /> : <Figures evening={evening} />}
      <Doubted shots={shots} leftOut={tonight.leftOut.length} />
      {shots.length > 1 && (
        <ShotPlot
          points={shots.map(({ residual, weight }, n) => ({
            x: n + 1,
            error: residual,
            good: weight >= DOUBTED,
          }))}
          tolerance={NEAR}
          label={plotWords(shots, NEAR, table ? 'on the table below' : undefined)}
        />
      )}
    </>
  );
}

/** Says how certain the amounts are. Shows nothing if no amount is given. */
function Figures({ evening: { tonight, toGo } }: { readonly evening: Evening }) {
  if (tonight.why === 'all made' || tonight.why === 'too large') return null;
  const togo = toGoWords(toGo);
  return (
    <>
      {tonight.amounts.map((amount) => (
        <p key={amount.of} class="soft-words">
          {amountWords(amount)}
        </p>
      ))}
      {togo && <p class="soft-words">{togo}</p>}
    </>
  );
}

/** Says how each pattern's numbers move, for a table that no single correction describes. */
function Patterns({ evening: { patterns } }: { readonly evening: Evening }) {
  const words = patternsWords(patterns.slice(0, PATTERNS_SAID));
  return words === null ? null : <p>{words}</p>;
}

/** Names shots that count little in the fit, and says how many do not count at all. */
function Doubted(props: {
  readonly shots: readonly { readonly weight: number }[];
  readonly leftOut: number;
}) {
  const { shots, leftOut } = props;
  const words = doubtedWords(shots.flatMap(({ weight }, n) => (weight < DOUBTED ? [n + 1] : [])));
  return (
    <>
      {words && <p class="soft-words">{words}</p>}
      {leftOut > 0 && (
        <p class="soft-words">
          {counted(leftOut, 'shot')} left out: on the chart’s table the ball could not have got
          there.
        </p>
      )}
    </>
  );
}

/** Shows the condition that the shots reveal, and what it would do to the chart. */
function TheTable({ model, chart, shots, evening }: ResultsProps & { readonly evening: Evening }) {
  const { condition, account, moved } = evening;
  const [said, say] = useState('');
  const other = condition.ok && (account === 'table' || account === 'both');
  const all = chart.lines.length * SPEEDS.length;
  return (
    <section class="sheet the-table" aria-labelledby="the-table-title">
      <h2 id="the-table-title">The table itself</h2>
      {conditionWords(chart, condition, account).map((say) => (
        <p key={say}>{say}</p>
      ))}
      {other && <p>{movedWords(moved, all)}</p>}
      {moved.length > 0 && (
        <ul class="rows moved-numbers">
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
          // Different shots reveal a different table, which can be saved again.
          key={shots.map(({ id }) => id).join(' ')}
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
