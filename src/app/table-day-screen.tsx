import { useMemo, useState } from 'preact/hooks';
import type { Chart, Evening, TableShot } from '../charts/index.ts';
import { notSaved } from '../quiz/index.ts';
import type { Fitter } from '../workers/index.ts';
import { useEvening } from './evening.ts';
import type { Model } from './model.ts';
import { Page } from './page.tsx';
import { ArrivalKeys } from './table-day-arrival.tsx';
import { choiceOf, type LineChoice, suggested } from './table-day-choice.ts';
import { LineToShoot } from './table-day-line.tsx';
import { ShotList } from './table-day-list.tsx';
import { Results } from './table-day-results.tsx';
import { asTableShot, type LoggedShot, shotsOn } from './tonight.ts';

/** Test shots at the real table: log them, and hear what to do to the chart's numbers tonight. */
export function TableDayScreen(props: { readonly model: Model; readonly fitter: Fitter }) {
  const { model } = props;
  const chart = model.chart.value;
  const log = model.log.value;
  const day = model.day.value;
  const logged = useMemo(() => shotsOn(log, chart.document.id, day), [log.shots, chart, day]);
  return chart.lines.length === 0 ? (
    <Page title="Table day">
      <p>{chart.document.name} has no line yet, so there is nothing to shoot at.</p>
    </Page>
  ) : (
    <TableDay key={chart.document.id} {...props} chart={chart} logged={logged} />
  );
}

interface TableDayProps {
  readonly model: Model;
  readonly fitter: Fitter;
  readonly chart: Chart;
  readonly logged: readonly LoggedShot[];
}

function TableDay({ model, fitter, chart, logged }: TableDayProps) {
  // The ids say which shots: an event of another kind is no reason to work everything out again.
  const ids = logged.map(({ id }) => id).join(' ');
  const shots = useMemo(() => logged.map(asTableShot), [ids]);
  const worked = useEvening(fitter, chart, shots);
  const [own, choose] = useState<LineChoice | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const choice = own ?? suggested(chart, worked.evening?.next ?? null, shots);
  const writes = useWrites(model, chart, setProblem);
  const last = logged.at(-1);
  // The suggestion of before must not be shot twice by a hand that is quicker than the sum.
  const waits = own === null && worked.busy && worked.problem === null;
  return (
    <Page title="Table day">
      <div class="table-day">
        <section class="sheet shoot" aria-labelledby="shoot-title">
          <LineToShoot
            chart={chart}
            choice={choice}
            why={own ? null : (worked.evening?.next ?? null)}
            waits={waits}
            choose={choose}
            follow={() => choose(null)}
          />
          <ArrivalKeys
            waits={waits}
            undo={last ? () => void writes.takeBack(last.id) : null}
            log={(miss) => void writes.log(choice, miss).then((kept) => kept && choose(null))}
          />
          <p class="last-shot" role="status">
            {last ? `Last: ${choiceOf(chart, last)}.` : 'No shot yet tonight.'}
          </p>
          <p class="soft-words">
            Diamonds along the rail from the pocket. Long: it came off its last cushion too wide.
          </p>
          {(problem ?? worked.problem) && (
            <p class="problem" role="alert">
              {problem ?? worked.problem}
            </p>
          )}
        </section>
        <Results
          model={model}
          chart={chart}
          shots={logged}
          evening={agreeing(worked.evening, shots)}
        />
        <ShotList logged={logged} chart={chart} remove={writes.takeBack} />
      </div>
    </Page>
  );
}

/** What was worked out of other shots than these is not shown as if it were of these. */
function agreeing(evening: Evening | null, shots: readonly TableShot[]): Evening | null {
  if (!evening) return null;
  const { tonight } = evening;
  return tonight.shots.length + tonight.leftOut.length === shots.length ? evening : null;
}

function useWrites(model: Model, chart: Chart, setProblem: (say: string | null) => void) {
  return useMemo(() => {
    const when = () => ({ day: model.today(), at: model.now() });
    const kept = (written: Promise<unknown>): Promise<boolean> =>
      written.then(
        () => {
          setProblem(null);
          return true;
        },
        (error: unknown) => {
          setProblem(notSaved(error));
          return false;
        },
      );
    return {
      log: ({ pattern, start, speed, aim }: LineChoice, miss: number | null) =>
        kept(
          model.append({
            type: 'table shot',
            chart: chart.document.id,
            pattern,
            start,
            speed,
            aim,
            miss,
            ...when(),
          }),
        ),
      takeBack: (id: string) => kept(model.append({ type: 'taken back', answered: id, ...when() })),
    };
  }, [model, chart]);
}
