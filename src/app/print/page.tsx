import { type Chart, isolated, lineFrom, type PatternId, patternOf } from '../../charts/index.ts';
import type { Units } from '../../quiz/index.ts';
import type { Speed } from '../../table/index.ts';
import { type Drawn, figureSize, PrintFigure, ScaleBar, SpeedKey } from './figure.tsx';
import { largestScale, type PaperName, pageRoom, type Scale, spreadRows } from './layout.ts';
import { isMixed, MarksKey, PrintNumbers } from './numbers.tsx';
import {
  barLength,
  CAUTION,
  countedWords,
  gapSentences,
  namingWords,
  type PrintRow,
  remarkSentences,
  revisionWords,
  rowsOf,
  scaleWords,
  speedsWords,
  tableWords,
} from './words.ts';

/** What to print of a chart, and on which paper. */
export interface PrintJob {
  readonly chart: Chart;
  readonly patterns: readonly PatternId[];
  readonly speeds: readonly Speed[];
  readonly paper: PaperName;
  readonly units: Units;
  /** How far the lines between two anchors may be off what the anchors predict, in diamonds. */
  readonly bound: number;
}

/** The height of letters, in millimeters: nine points of 25.4/72 mm each. */
const LETTERS = (9 * 25.4) / 72;
/** The scale to fall back on if none fits, which does not happen with our tables. */
const SMALLEST: Scale = 150;

/**
 * Returns the one scale at which all figures of a job fit a room, and the height of their letters.
 */
export function drawnIn(
  { chart, patterns }: PrintJob,
  letters: number,
  room: { readonly width: number; readonly height: number },
): Drawn {
  const sizeAt = (scale: Scale) => figureSize(chart, patterns, { scale, letters });
  return { scale: largestScale(sizeAt, room) ?? SMALLEST, letters };
}

export function pageDrawing(job: PrintJob): Drawn {
  return drawnIn(job, LETTERS, pageRoom(job.paper));
}

/**
 * Returns the line that a figure shows: the one from the middle anchor, or from the first of the
 * two in the middle.
 */
export function shownLine({ chart }: PrintJob, id: PatternId, rows: readonly PrintRow[]) {
  const anchors = rows.filter(({ anchor }) => anchor);
  const start = anchors[Math.floor((anchors.length - 1) / 2)]?.start;
  return start === undefined ? null : lineFrom(chart, id, start);
}

/**
 * Returns the pages of a pattern. There are several if its numbers do not fit beside the figure.
 */
export function pagesOf(job: PrintJob, id: PatternId) {
  const rows = rowsOf(job.chart, id, job.speeds, job.bound);
  const { beside, further } = spreadRows(rows);
  const common = { job, id, rows };
  return [
    <FirstPage key={id} {...common} beside={beside} more={further.length > 0} />,
    ...further.map((columns, n) => (
      <FurtherPage key={`${id} ${n + 2}`} {...common} columns={columns} page={n + 2} />
    )),
  ];
}

interface PageProps {
  readonly job: PrintJob;
  readonly id: PatternId;
  /** All rows of the pattern. */
  readonly rows: readonly PrintRow[];
}

function FirstPage(
  props: PageProps & { readonly beside: readonly PrintRow[]; readonly more: boolean },
) {
  const { job, id, rows, beside } = props;
  const { chart, speeds, units } = job;
  const pattern = patternOf(id);
  const drawn = pageDrawing(job);
  const line = shownLine(job, id, rows);
  return (
    <article class="print-page">
      <header>
        <h2>{pattern.name}</h2>
        <p>{pattern.path}</p>
      </header>
      <div class="print-body">
        <figure>
          <PrintFigure chart={chart} pattern={id} line={line} speeds={speeds} drawn={drawn} />
          <figcaption>
            <SpeedKey speeds={speeds} />
            <ScaleBar length={(barLength(units) * 1000) / drawn.scale} />
            <span>{scaleWords(drawn.scale, units)}</span>
            {line?.source === 'measured' && (
              <span>The numbers of this line were measured; its paths are computed.</span>
            )}
          </figcaption>
        </figure>
        <div class="print-beside">
          {beside.length > 0 ? (
            <PrintNumbers
              caption={`The numbers of ${pattern.name}`}
              rows={beside}
              speeds={speeds}
              mixed={isMixed(rows)}
            />
          ) : (
            <p>This chart has no line of this pattern.</p>
          )}
          {props.more && <p>The other starts are on the next page.</p>}
          <Facts {...props} />
        </div>
      </div>
      <Source chart={chart} />
    </article>
  );
}

/** Says what the numbers mean and how they are counted. */
function Facts({ job, id, rows }: PageProps) {
  const { chart, speeds, units } = job;
  const { starts, numbers } = countedWords(id);
  return (
    <section class="print-facts" aria-label={`How to read ${patternOf(id).name}`}>
      <p>
        <strong>{namingWords(chart)}</strong> Numbers: {numbers}. Starts: {starts}.
      </p>
      <p>{speedsWords(chart, speeds, units)}</p>
      <p>
        <MarksKey rows={rows} />
      </p>
      {gapSentences(chart, id).map((say) => (
        <p key={say}>{say}</p>
      ))}
      {remarkSentences(chart, id).map((say) => (
        <p key={say}>{say}</p>
      ))}
    </section>
  );
}

export function Source({ chart }: { readonly chart: Chart }) {
  return (
    <footer class="print-source">
      <p>
        <strong>{isolated(chart.document.name)}</strong> · {tableWords(chart)} ·{' '}
        {revisionWords(chart)}
      </p>
      <p>{CAUTION}</p>
    </footer>
  );
}

function FurtherPage(
  props: PageProps & {
    readonly columns: readonly (readonly PrintRow[])[];
    readonly page: number;
  },
) {
  const { job, id, rows, columns, page } = props;
  const { name } = patternOf(id);
  return (
    <article class="print-page">
      <header>
        <h2>
          {name}, page {page}
        </h2>
      </header>
      <div class="print-columns">
        {columns.map((column, n) => (
          <PrintNumbers
            key={column[0]?.start}
            caption={`More numbers of ${name}, column ${n + 1}`}
            rows={column}
            speeds={job.speeds}
            mixed={isMixed(rows)}
          />
        ))}
      </div>
      <Source chart={job.chart} />
    </article>
  );
}
