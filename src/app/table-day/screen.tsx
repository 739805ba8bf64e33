import './table-day.css';
import type { RefObject } from 'preact';
import { useMemo, useRef, useState } from 'preact/hooks';
import { type Chart, isolated } from '../../charts/index.ts';
import { Page } from '../parts/page.tsx';
import { Problem } from '../parts/saving.tsx';
import type { AppPorts } from '../ports.ts';
import { type LoggedShot, shotsOn } from '../state/tonight.ts';
import { ArrivalKeys } from './arrival.tsx';
import { choiceOf } from './choice.ts';
import { LineToShoot } from './line.tsx';
import { ShotList } from './list.tsx';
import { Results } from './results.tsx';
import { type Shooting, useShooting } from './shooting.ts';
import { lostWords } from './words.ts';

/** Logs test shots at the real table, and says how to change the chart's numbers tonight. */
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

/** Returns whether another tab has put a different chart to use while this screen was open. */
function useChanged(id: string): boolean {
  const [first] = useState(id);
  const [changed, setChanged] = useState(false);
  if (id !== first && !changed) setChanged(true);
  return changed;
}

interface TableDayProps extends Pick<AppPorts, 'model' | 'fitter'> {
  readonly chart: Chart;
  readonly logged: readonly LoggedShot[];
  /** Whether the chart differs from the one that the screen opened with. */
  readonly changed: boolean;
}

function TableDay({ model, fitter, chart, logged, changed }: TableDayProps) {
  const shooting = useShooting(model, fitter, chart, logged);
  const made = useRef<HTMLButtonElement>(null);
  return (
    <Page title="Table day">
      <p class="soft-words chart-in-use" role="status">
        {changed ? 'Another chart is in use now: ' : 'Chart: '}
        {isolated(chart.document.name)}
      </p>
      <div class="table-day">
        <ShootSheet chart={chart} logged={logged} shooting={shooting} made={made} />
        <Results model={model} chart={chart} shots={logged} evening={shooting.evening} />
        <ShotList
          logged={logged}
          chart={chart}
          remove={shooting.takeBack}
          emptied={() => made.current?.focus({ preventScroll: true })}
        />
      </div>
    </Page>
  );
}

/** Shows the line to shoot, and the keys that log where the ball arrived. */
function ShootSheet(props: {
  readonly chart: Chart;
  readonly logged: readonly LoggedShot[];
  readonly shooting: Shooting;
  readonly made: RefObject<HTMLButtonElement | null>;
}) {
  const { chart, shooting, made } = props;
  const { own, waits, problem } = shooting;
  const picked = own?.picked ?? false;
  const last = props.logged.at(-1);
  return (
    <section class="sheet shoot" aria-labelledby="shoot-title">
      <LineToShoot
        chart={chart}
        choice={shooting.choice}
        why={shooting.why}
        waits={waits}
        choose={(choice) => shooting.choose({ choice, picked })}
        pick={(choice) => shooting.choose({ choice, picked: true })}
        picked={picked}
        follow={() => shooting.choose(null)}
      />
      <ArrivalKeys
        waits={waits}
        undo={last ? () => void shooting.takeBack(last.id) : null}
        log={(miss) => void shooting.log(miss)}
        lost={shooting.lose}
        made={made}
      />
      <p class="last-shot" role="status">
        {last ? `Last: ${choiceOf(chart, last)}.` : 'No shot yet tonight.'}
      </p>
      <p class="soft-words" role="status">
        {lostWords(shooting.without)}
      </p>
      <p class="soft-words">
        Diamonds along the rail from the pocket. Long: it came off its last cushion too wide.
      </p>
      <Problem say={problem} />
    </section>
  );
}
