import './table-day.css';
import { useMemo, useRef, useState } from 'preact/hooks';
import { type Chart, isolated } from '../../charts/index.ts';
import { notSaved } from '../../quiz/index.ts';
import type { Evening, LineSpeed, TableShot } from '../../shots/index.ts';
import type { Fitter } from '../../workers/index.ts';
import { Page } from '../parts/page.tsx';
import type { AppPorts } from '../ports.ts';
import type { Model } from '../state/model.ts';
import { asTableShot, type LoggedShot, shotsOn } from '../state/tonight.ts';
import { ArrivalKeys } from './arrival.tsx';
import { choiceOf, type LineChoice, suggested } from './choice.ts';
import { useEvening } from './evening.ts';
import { LineToShoot } from './line.tsx';
import { ShotList } from './list.tsx';
import { Results } from './results.tsx';
import { lostWords } from './words.ts';

/** Test shots at the real table: log them, and hear what to do to the chart's numbers tonight. */
export function TableDayScreen({ model, fitter }: Pick<AppPorts, 'model' | 'fitter'>) {
  const chart = model.chart.value;
  const log = model.log.value;
  const day = model.day.value;
  const logged = useMemo(() => shotsOn(log, chart.document.id, day), [log.shots, chart, day]);
  const changed = useChanged(chart.document.id);
  return chart.lines.length === 0 ? (
    <Page title="Table day">
      <p>{isolated(chart.document.name)} has no line yet, so there is nothing to shoot at.</p>
    </Page>
  ) : (
    <TableDay
      key={chart.document.id}
      model={model}
      fitter={fitter}
      chart={chart}
      logged={logged}
      changed={changed}
    />
  );
}

/** Has another chart come into use while the screen was open, by another tab. */
function useChanged(id: string): boolean {
  const [first] = useState(id);
  const [changed, setChanged] = useState(false);
  if (id !== first && !changed) setChanged(true);
  return changed;
}

interface TableDayProps {
  readonly model: Model;
  readonly fitter: Fitter;
  readonly chart: Chart;
  readonly logged: readonly LoggedShot[];
  /** Is it another chart than the one the screen was opened with. */
  readonly changed: boolean;
}

function TableDay({ model, fitter, chart, logged, changed }: TableDayProps) {
  // The ids say which shots: an event of another kind is no reason to work everything out again.
  const ids = logged.map(({ id }) => id).join(' ');
  const shots = useMemo(() => logged.map(asTableShot), [ids]);
  const [without, setWithout] = useState<readonly LineSpeed[]>([]);
  const worked = useEvening(fitter, chart, shots, without);
  const [own, setOwn] = useState<Own | null>(null);
  const made = useRef<HTMLButtonElement>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const choice = own?.choice ?? suggested(chart, worked.evening?.next ?? null, shots);
  const writes = useWrites(model, chart, setProblem);
  const last = logged.at(-1);
  // The suggestion of before must not be shot twice by a hand that is quicker than the sum.
  const waits = own === null && worked.busy && worked.problem === null;
  const follow = () => setOwn(null);
  const log = async (miss: number | null): Promise<void> => {
    if ((await writes.log(choice, miss)) && !own?.picked) follow();
  };
  const lost = (): void => {
    const { pattern, start, speed } = choice;
    setWithout([...without, { pattern, start, speed }]);
    follow();
  };
  return (
    <Page title="Table day">
      <p class="soft-words chart-in-use" role="status">
        {changed ? 'Another chart is in use now: ' : 'Chart: '}
        {isolated(chart.document.name)}
      </p>
      <div class="table-day">
        <section class="sheet shoot" aria-labelledby="shoot-title">
          <LineToShoot
            chart={chart}
            choice={choice}
            why={own ? null : (worked.evening?.next ?? null)}
            waits={waits}
            choose={(choice) => setOwn({ choice, picked: own?.picked ?? false })}
            pick={(choice) => setOwn({ choice, picked: true })}
            picked={own?.picked ?? false}
            follow={follow}
          />
          <ArrivalKeys
            waits={waits}
            undo={last ? () => void writes.takeBack(last.id) : null}
            log={(miss) => void log(miss)}
            lost={lost}
            made={made}
          />
          <p class="last-shot" role="status">
            {last ? `Last: ${choiceOf(chart, last)}.` : 'No shot yet tonight.'}
          </p>
          <p class="soft-words" role="status">
            {lostWords(without)}
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
        <ShotList
          logged={logged}
          chart={chart}
          remove={writes.takeBack}
          emptied={() => made.current?.focus({ preventScroll: true })}
        />
      </div>
    </Page>
  );
}

/** What the player made of the suggestion. */
interface Own {
  readonly choice: LineChoice;
  /** A line picked under "Another line", which stays; another number or speed is for one shot. */
  readonly picked: boolean;
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
