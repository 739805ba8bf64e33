import './pocket.css';
import { formatDecimal, type PatternId, patternOf } from '../../charts/index.ts';
import { mainSpeed, PrintFigure } from './figure.tsx';
import {
  COLUMNS,
  lotsOf,
  PATTERNS_A_SHEET,
  panelInside,
  panelPlace,
  pocketRoom,
} from './layout.ts';
import { isMixed, MarksKey, PrintNumbers } from './numbers.tsx';
import { drawnIn, type PrintJob, shownLine } from './page.tsx';
import {
  anchorsFirst,
  CAUTION,
  countedWords,
  gapSentences,
  namingWords,
  type PrintRow,
  revisionWords,
  rowsOf,
  speedsWords,
  tableWords,
} from './words.ts';

/**
 * The height of letters, in millimeters: 6.6 points, because no letters may be smaller than 6.5.
 */
const LETTERS = (6.6 * 25.4) / 72;
/** How many rows fit into a panel. */
const ROWS = 16;

/** Returns sheets that fold into eight panels: a cover and seven patterns. */
export function pocketSheets(job: PrintJob) {
  const lots = lotsOf(job.patterns, PATTERNS_A_SHEET);
  return lots.map((patterns, n) => (
    <article key={patterns[0]} class="pocket-sheet">
      <Cover job={job} patterns={patterns} sheet={n + 1} of={lots.length} />
      {patterns.map((id, m) => (
        <PatternPanel key={id} job={job} id={id} place={m + 1} />
      ))}
      <FoldMarks />
    </article>
  ));
}

/** Returns the style of the nth panel of a sheet: where it goes, and which way up. */
function placed(n: number, { paper }: PrintJob) {
  const { row, column, turned } = panelPlace(n);
  const { width, height } = panelInside(paper);
  const sides = column === 0 ? 'at-left' : column === COLUMNS - 1 ? 'at-right' : '';
  return {
    class: `fold-panel ${sides} ${turned ? 'turned' : ''}`,
    style: {
      gridRow: row === 'upper' ? 1 : 2,
      gridColumn: column + 1,
      '--panel-width': `${width}mm`,
      '--panel-height': `${height}mm`,
    },
  };
}

function Cover(props: {
  readonly job: PrintJob;
  readonly patterns: readonly PatternId[];
  readonly sheet: number;
  readonly of: number;
}) {
  const { job, patterns, sheet, of } = props;
  const { chart, speeds, units } = job;
  const rows = patterns.flatMap((id) => rowsOf(chart, id, speeds, job.bound));
  return (
    <section {...placed(0, job)}>
      <div class="panel-inside cover">
        <h2>{chart.document.name}</h2>
        <p>
          {tableWords(chart)}
          <br />
          {revisionWords(chart)}
        </p>
        {of > 1 && (
          <p>
            Sheet {sheet} of {of}
          </p>
        )}
        <ol>
          {patterns.map((id) => (
            <li key={id}>{patternOf(id).name}</li>
          ))}
        </ol>
        <p>
          {namingWords(chart)} {speedsWords(chart, speeds, units)} <MarksKey rows={rows} />
        </p>
        <p>{CAUTION}</p>
        <p class="how-to-fold">
          To fold: print on one side at full size. Fold lengthwise along the middle, the print
          outside; then zigzag into four, this panel in front.
        </p>
      </div>
    </section>
  );
}

function PatternPanel(props: {
  readonly job: PrintJob;
  readonly id: PatternId;
  readonly place: number;
}) {
  const { job, id, place } = props;
  const { chart, speeds } = job;
  const { name, path } = patternOf(id);
  const rows = rowsOf(chart, id, speeds, job.bound);
  const { shown, left } = anchorsFirst(rows, ROWS);
  const { starts, numbers } = countedWords(id);
  return (
    <section {...placed(place, job)}>
      <div class="panel-inside">
        <h2>{name}</h2>
        <p class="panel-path">{path}</p>
        <div class="panel-body">
          <PanelFigure job={job} id={id} rows={rows} />
          <div>
            <PrintNumbers
              caption={`The numbers of ${name}`}
              rows={shown}
              speeds={speeds}
              mixed={isMixed(rows)}
              short
            />
            {left > 0 && <p class="panel-note">and {left} more on the chart</p>}
          </div>
        </div>
        <p class="panel-words">
          Starts: {starts}. Numbers: {numbers}. {gapSentences(chart, id).join(' ')}
        </p>
      </div>
    </section>
  );
}

function PanelFigure(props: {
  readonly job: PrintJob;
  readonly id: PatternId;
  readonly rows: readonly PrintRow[];
}) {
  const { job, id, rows } = props;
  const drawn = drawnIn(job, LETTERS, pocketRoom(job.paper));
  const line = shownLine(job, id, rows);
  const speed = mainSpeed(job.speeds);
  return (
    <div>
      <PrintFigure chart={job.chart} pattern={id} line={line} speeds={[speed]} drawn={drawn} />
      <p class="panel-note">
        {line && `From ${formatDecimal(line.start)}, ${speed}. `}1:{drawn.scale}
      </p>
    </div>
  );
}

/**
 * Draws short lines where the folds meet the edges, inside the area that every printer can print.
 */
function FoldMarks() {
  return (
    <div class="fold-marks" aria-hidden="true">
      <span class="fold-along" />
      <span class="fold-along at-end" />
      {[1, 2, 3].flatMap((column) => [
        <span key={`${column} top`} class="fold-across" style={{ '--fold': column }} />,
        <span key={`${column} foot`} class="fold-across at-end" style={{ '--fold': column }} />,
      ])}
    </div>
  );
}
