import { useEffect, useState } from 'preact/hooks';
import { type FoundPath, type LookedUp, type MissedPath, windowsAt } from '../../cards/index.ts';
import { type Chart, verdictOf } from '../../charts/index.ts';
import { SpeedLegend } from '../../quiz/index.ts';
import type { Correction } from '../../shots/index.ts';
import type { Speed } from '../../table/index.ts';
import { PrintedNumber } from '../parts/as-printed.tsx';
import { placeWords, type Shot } from '../parts/shot.ts';
import {
  countOfWays,
  countWords,
  type Drops,
  missedWords,
  missesOf,
  mouthWords,
  type NumberWords,
  numbersOf,
  pathWords,
  tonightNumbers,
  wayName,
} from './words.ts';

/** The ways from start to target, each with its three numbers; a tap draws it. */
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
    <section class="look-up-results" aria-labelledby="ways-title">
      <div role="status">
        <h2 id="ways-title">{countOfWays(looked)}</h2>
        <p class="soft-words">
          From {placeWords(start)} to {target.kind === 'pocket' ? 'the ' : ''}
          {placeWords(target)}.
        </p>
        {mouth && <p>{mouth}</p>}
      </div>
      <ul class="way-list">
        {looked.found.map((way, n) => (
          <WayRow
            key={`${way.pattern} ${way.mirror.leftRight} ${way.mirror.footHead}`}
            chart={chart}
            way={way}
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

function WayRow(props: {
  readonly chart: Chart;
  readonly way: FoundPath;
  readonly say: readonly Correction[];
  readonly chosen: boolean;
  readonly choose: () => void;
}) {
  const { chart, way, chosen } = props;
  const path = pathWords(way);
  const drops = useDrops(chart, way);
  return (
    <li class={`sheet way-row ${chosen ? 'chosen' : ''}`}>
      <div class="way-head">
        <button type="button" class="way-name" aria-pressed={chosen} onClick={props.choose}>
          {wayName(way)}
        </button>
        {!chosen && drops && <VerdictChip drops={drops} />}
        <span class={`verdict-chip ${way.onChart ? 'banks' : ''}`}>
          {way.onChart ? 'on your chart' : 'worked out'}
        </span>
      </div>
      {path && <p class="soft-words">{path}</p>}
      <Numbers numbers={numbersOf(way)} drops={drops} name={wayName(way)} />
      <WithTonight chart={chart} way={way} say={props.say} />
      <p class="soft-words">{countWords(way, chart.naming)}</p>
      {chosen && <SpeedLegend />}
      {chosen && drops && <Trust way={way} drops={drops} />}
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

/** The numbers as they are to be called tonight; nothing where tonight's correction leaves them. */
function WithTonight({
  chart,
  way,
  say,
}: {
  readonly chart: Chart;
  readonly way: FoundPath;
  readonly say: readonly Correction[];
}) {
  const words = tonightNumbers(chart, way, say);
  return words === null ? null : <p class="tonight-numbers">{words}</p>;
}

/** What drops of the numbers, worked out when they are on the screen; null until then, and of a kick. */
function useDrops(chart: Chart, way: FoundPath): Drops | null {
  const [played, setPlayed] = useState<{ readonly way: FoundPath; readonly drops: Drops } | null>(
    null,
  );
  useEffect(() => {
    if (way.route.target.kind !== 'pocket') return;
    const exact = (speed: Speed): number | null => {
      const number = way.numbers[speed];
      return typeof number === 'string' ? null : number.exact;
    };
    const numbers = { soft: exact('soft'), medium: exact('medium'), firm: exact('firm') };
    setPlayed({ way, drops: windowsAt(chart, way.route, way.start, numbers) });
  }, [chart, way]);
  return played?.way === way ? played.drops : null;
}

function Trust({ way, drops }: { readonly way: FoundPath; readonly drops: Drops }) {
  const verdict = verdictOf(drops);
  return (
    <>
      {missesOf(way, drops).map((say) => (
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

/** Why other ways do not serve; where the pattern is played from only if nothing else is left. */
function Missed({ looked }: { readonly looked: LookedUp }) {
  const { found, missed } = looked;
  const shown = missed.filter(({ why }) => found.length === 0 || why !== 'beyond its starts');
  if (shown.length === 0) return null;
  return (
    <ul class="ways-missed">
      {[...new Set(shown.map((way: MissedPath) => missedWords(way)))].map((say) => (
        <li key={say} class="soft-words">
          {say}
        </li>
      ))}
    </ul>
  );
}
