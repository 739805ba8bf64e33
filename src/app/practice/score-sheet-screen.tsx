import { useEffect, useMemo, useRef } from 'preact/hooks';
import { cardsOf } from '../../cards/index.ts';
import type { Chart } from '../../charts/index.ts';
import { askerFor, ScoreSheet, SheetQuestion, scoreRows } from '../../quiz/index.ts';
import { type Rehearsed, rehearsals } from '../../scheduler/index.ts';
import { fileNameOf } from '../device/file-name.ts';
import { dateWords } from '../parts/date-words.ts';
import { Page } from '../parts/page.tsx';
import { SaveFigure } from '../parts/save-figure.tsx';
import type { AppPorts } from '../ports.ts';
import type { Model } from '../state/model.ts';

interface SheetProps extends Pick<AppPorts, 'model' | 'files' | 'go' | 'print'> {
  readonly id: string;
  /** The question that is open, counted from 1; null if none is open. */
  readonly question: number | null;
}

export function ScoreSheetScreen(props: SheetProps) {
  const { model, id, go } = props;
  const event = rehearsals(model.log.value).find((one) => one.id === id);
  if (event) return <Sheet {...props} event={event} />;
  return (
    <Page title="Score sheet">
      <p>There is no rehearsal at this address on this device.</p>
      <button type="button" class="key" onClick={() => go({ name: 'rehearsal' })}>
        To Rehearsal
      </button>
    </Page>
  );
}

function Sheet(props: SheetProps & { readonly event: Rehearsed }) {
  const { model, files, go, print, id, question, event } = props;
  const chart = useChart(model, event);
  const rows = useRows(model, chart, event);
  const last = useRef<number | null>(null);
  useEffect(() => {
    if (question !== null) last.current = question;
  }, [question]);
  const open = (row: number | null) => go({ name: 'score-sheet', id, question: row });
  const row = rows.find(({ number, again }) => number === question && again);
  if (row) {
    const next = rows.find(({ number, again }) => number > row.number && again);
    return (
      <SheetQuestion
        chart={chart}
        settings={model.settings.value}
        row={row}
        of={rows.length}
        back={() => open(null)}
        next={() => open(next?.number ?? null)}
      >
        <SaveFigure files={files} name={fileNameOf('rehearsal question', String(row.number))} />
      </SheetQuestion>
    );
  }
  return (
    <Page title="Score sheet">
      <p class="lead">{aboutWords(event)}</p>
      <div class="actions">
        <button type="button" class="key quiet" onClick={() => go({ name: 'rehearsal' })}>
          To Rehearsal
        </button>
        <button type="button" class="key quiet" onClick={print}>
          Print
        </button>
      </div>
      <ScoreSheet event={event} rows={rows} last={last.current} open={open} />
    </Page>
  );
}

/**
 * Returns the chart of the questions, which need not be the one in use. A card's id begins with the
 * id of its chart.
 */
function useChart(
  model: Pick<Model, 'chart' | 'charts' | 'chartOf'>,
  { questions }: Rehearsed,
): Chart {
  const id = questions[0]?.card.split('/')[0];
  const [inUse, charts] = [model.chart.value, model.charts.value];
  return useMemo(() => model.chartOf(id), [id, inUse, charts]);
}

function useRows(model: Pick<Model, 'settings'>, chart: Chart, event: Rehearsed) {
  const settings = model.settings.value;
  return useMemo(() => {
    const asker = askerFor(chart, settings);
    return scoreRows({ asker, cards: cardsOf(chart, asker.tolerance) }, event);
  }, [chart, settings, event]);
}

function aboutWords({ at, clock, counts }: Rehearsed): string {
  const time = clock === null ? 'no shot clock' : `${clock} s a question`;
  return `Rehearsal of ${dateWords(at)}, ${time}; ${counts ? 'counted' : 'did not count'} for memory.`;
}
