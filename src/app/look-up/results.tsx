import { useEffect, useState } from 'preact/hooks';
import { type FoundPath, type LookedUp, type MissedPath, windowsAt } from '../../cards/index.ts';
import { type Chart, verdictOf } from '../../charts/index.ts';
import { SpeedLegend } from '../../quiz/index.ts';
import type { Correction } from '../../shots/index.ts';
import type { Speed } from '../../table/index.ts';
import { PrintedNumber } from '../parts/as-printed.tsx';
import { placeWords, type Shot } from '../parts/shot.ts';
import {
  countOfPaths,
  countWords,
  type Drops,
  missedWords,
  missesOf,
  mouthWords,
  type NumberWords,
  numbersOf,
  pathName,
  pathWords,
  tonightNumbers,
} from './words.ts';

/** Lists the paths from start to target, each with its three numbers. A tap draws a path. */
export function Results(props: {
  readonly chart: Chart;
  readonly shot: Shot;
  readonly looked: LookedUp | null;
  /** Tonight's correction, from table day; empty if there is none. */
  readonly say: readonly Correction[];
  readonly chosen: number;
  readonly choose: (index: number) => void;
}) {
  const { chart, shot, looked } = props;
  const { start, target } = shot;
  if (!looked || !start || !target) return null;
  const mouth = mouthWords(chart.setting.table, looked, target);
  return (
    <section class="look-up-results" aria-labelledby="paths-title">
      <div role="status">
        <h2 id="paths-title">{countOfPaths(looked)}</h2>
        <p class="soft-words">
          From {placeWords(start)} to {target.kind === 'pocket' ? 'the ' : ''}
          {placeWords(target)}.
        </p>
        {mouth && <p>{mouth}</p>}
      </div>
      <ul class="path-list">
        {looked.found.map((path, n) => (
          <PathRow
            key={`${path.pattern} ${path.mirror.leftRight} ${path.mirror.footHead}`}
            chart={chart}
            path={path}
            say={props.say}
            chosen={n === props.chosen}
            choose={() => props.choose(n)}
          />
        ))}
      </ul>
      <Missed looked={looked} />
    </section>
  );
}

function PathRow(props: {
  readonly chart: Chart;
  readonly path: FoundPath;
  readonly say: readonly Correction[];
  readonly chosen: boolean;
  readonly choose: () => void;
}) {
  const { chart, path, chosen } = props;
  const route = pathWords(path);
  const drops = useDrops(chart, path);
  return (
    <li class={`sheet path-row ${chosen ? 'chosen' : ''}`}>
      <div class="path-head">
        <button type="button" class="path-name" aria-pressed={chosen} onClick={props.choose}>
          {pathName(path)}
        </button>
        {!chosen && drops && <VerdictChip drops={drops} />}
        <span class={`verdict-chip ${path.onChart ? 'banks' : ''}`}>
          {path.onChart ? 'on your chart' : 'worked out'}
        </span>
      </div>
      {route && <p class="soft-words">{route}</p>}
      <Numbers numbers={numbersOf(path)} drops={drops} name={pathName(path)} />
      <WithTonight chart={chart} path={path} say={props.say} />
      <p class="soft-words">{countWords(path, chart.naming)}</p>
      {chosen && <SpeedLegend />}
      {chosen && drops && <Trust path={path} drops={drops} />}
    </li>
  );
}

function Numbers(props: {
  readonly numbers: readonly NumberWords[];
  readonly drops: Drops | null;
  readonly name: string;
}) {
  const { drops } = props;
  const missing = props.numbers.filter(({ why }) => why !== null);
  return (
    <>
      <table class="speeds">
        <caption class="visually-hidden">{props.name}</caption>
        <thead>
          <tr>
            {props.numbers.map(({ speed }) => (
              <th key={speed} scope="col">
                {speed}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          <tr>
            {props.numbers.map(({ speed, printed, movement }) => (
              <td key={speed}>
                <strong>
                  {printed === null ? (
                    '–'
                  ) : (
                    <PrintedNumber number={{ printed, makeWindow: drops?.[speed] ?? null }} />
                  )}
                </strong>
                <span>{movement || '\u00a0'}</span>
              </td>
            ))}
          </tr>
        </tbody>
      </table>
      {missing.map(({ speed, why }) => (
        <p key={speed} class="soft-words">
          No number at {speed}: {why}.
        </p>
      ))}
    </>
  );
}

/** Shows the numbers with tonight's correction. Shows nothing if the correction does not apply. */
function WithTonight({
  chart,
  path,
  say,
}: {
  readonly chart: Chart;
  readonly path: FoundPath;
  readonly say: readonly Correction[];
}) {
  const words = tonightNumbers(chart, path, say);
  return words === null ? null : <p class="tonight-numbers">{words}</p>;
}

/**
 * Returns the aim numbers that pocket the ball, computed once the path is on the screen. Null until
 * then, and for a kick.
 */
function useDrops(chart: Chart, path: FoundPath): Drops | null {
  const [played, setPlayed] = useState<{ readonly path: FoundPath; readonly drops: Drops } | null>(
    null,
  );
  useEffect(() => {
    if (path.route.target.kind !== 'pocket') return;
    const exact = (speed: Speed): number | null => {
      const number = path.numbers[speed];
      return typeof number === 'string' ? null : number.exact;
    };
    const numbers = { soft: exact('soft'), medium: exact('medium'), firm: exact('firm') };
    setPlayed({ path, drops: windowsAt(chart, path.route, path.start, numbers) });
  }, [chart, path]);
  return played?.path === path ? played.drops : null;
}

function Trust({ path, drops }: { readonly path: FoundPath; readonly drops: Drops }) {
  const verdict = verdictOf(drops);
  return (
    <>
      {missesOf(path, drops).map((say) => (
        <p key={say}>{say}</p>
      ))}
      <p class="trust">
        <VerdictChip drops={drops} /> {verdict.reason}
      </p>
    </>
  );
}

function VerdictChip({ drops }: { readonly drops: Drops }) {
  const { kind } = verdictOf(drops);
  return <span class={`verdict-chip ${kind.replace(' ', '-')}`}>{kind}</span>;
}

/**
 * Says why other paths fail. A start that is out of range is mentioned only if no path is found.
 */
function Missed({ looked }: { readonly looked: LookedUp }) {
  const { found, missed } = looked;
  const shown = missed.filter(({ why }) => found.length === 0 || why !== 'beyond its starts');
  if (shown.length === 0) return null;
  return (
    <ul class="paths-missed">
      {[...new Set(shown.map((path: MissedPath) => missedWords(path)))].map((say) => (
        <li key={say} class="soft-words">
          {say}
        </li>
      ))}
    </ul>
  );
}
