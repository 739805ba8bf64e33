import './drills.css';
import { useMemo, useState } from 'preact/hooks';
import { type Chart, formatDecimal } from '../../charts/index.ts';
import {
  createDrill,
  createDrillSession,
  DrillScreen,
  type DrillSpec,
  fitted,
  formatDrill,
  isOver,
  parseDrill,
  printOf,
  type Run,
  runOf,
  runsIn,
} from '../../quiz/index.ts';
import { weakDrills } from '../parts/drill-plan.ts';
import { Page } from '../parts/page.tsx';
import type { AppPorts } from '../ports.ts';
import { CodeEntry } from './drill-code-entry.tsx';
import { DrillHistory, WeakDrills } from './drill-history.tsx';
import { type DrillPorts, ResultPage, ToDrills, type WithRuns } from './drill-result-page.tsx';
import { DrillSetup } from './drill-setup.tsx';

/** Sets up a drill, plays a drill by its code, or shows the result of a run. */
export function DrillsScreen(props: DrillPorts & Pick<AppPorts, 'screen'>) {
  const { model, screen, go } = props;
  const now = screen.value;
  /** The code of a drill that begins again although it was finished today. */
  const [again, setAgain] = useState<string | null>(null);
  // Read when the page opens, because every answer of a drill under way changes the runs.
  const runs = useMemo(() => runsIn(model.log.peek()), [model, now, again]);
  const start = (code: string): void => {
    setAgain(code);
    go({ name: 'drill', code });
  };
  if (now.name !== 'drill') return <DrillsHome {...props} runs={runs} start={start} />;
  const [written = '', name] = now.code.split('.');
  const code = plainCode(written);
  const run = runs.find((one) => one.code === code && one.run === name);
  if (run) return <ResultPage {...props} runs={runs} run={run} start={start} />;
  return (
    <ByCode
      {...props}
      key={`${code} ${again === code}`}
      code={code}
      runs={runs}
      start={start}
      again={again === code}
      leave={(played) => {
        setAgain(null);
        go(played ? { name: 'drill', code: `${code}.${played}` } : { name: 'drills' });
      }}
    />
  );
}

/** Returns the code as the log stores it, however the address spells it. */
function plainCode(written: string): string {
  const parsed = parseDrill(written);
  return parsed.ok ? formatDrill(parsed.spec) : written;
}

function DrillsHome({ model, runs, start }: WithRuns) {
  const weak = useMemo(() => weakDrills(model, runs), [model, runs]);
  return (
    <Page title="Drills">
      <p class="lead">
        Numbers worked out between the ones you know.{' '}
        {model.settings.value.drillsCount
          ? 'The first answer of each skill counts toward your schedule.'
          : 'Drills don’t affect your schedule.'}
      </p>
      <div class="drills">
        <WeakDrills model={model} weak={weak} start={start} />
        <DrillSetup model={model} runs={runs} start={start} />
        <CodeEntry start={start} />
        <DrillHistory runs={runs} />
      </div>
    </Page>
  );
}

interface ByCodeProps extends WithRuns {
  readonly code: string;
  readonly again: boolean;
  /**
   * Leaves the drill.
   * @param run the name of the run; null if nothing was answered
   */
  readonly leave: (run: string | null) => void;
}

/** Shows the drill with the code in the address, or says why the code is refused. */
function ByCode(props: ByCodeProps) {
  const parsed = parseDrill(props.code);
  return parsed.ok ? <BySpec {...props} spec={parsed.spec} /> : <Refused say={parsed.say} />;
}

/**
 * Plays the drill. If it was finished today, shows its result; if this chart cannot ask it as it
 * was made, says so.
 */
function BySpec(props: ByCodeProps & { readonly spec: DrillSpec }) {
  const { model, code, spec, runs, go, again } = props;
  const chart = model.chart.value;
  // Read once. The run is already over while its last answer is shown, and must not vanish then.
  const [begun] = useState(() => runOf(runs, code, model.today()));
  const own = useMemo(() => formatDrill(fitted(parsedSpec(code), chart)), [code, chart]);
  if (own !== code) {
    return <Elsewhere spec={spec} chart={chart} play={() => go({ name: 'drill', code: own })} />;
  }
  if (begun && isOver(begun) && !again) return <ResultPage {...props} run={begun} />;
  return (
    <Play {...props} chart={chart} spec={spec} begun={begun && !isOver(begun) ? begun : null} />
  );
}

function parsedSpec(code: string): DrillSpec {
  const parsed = parseDrill(code);
  if (!parsed.ok) throw new Error(`not the code of a drill: ${code}`);
  return parsed.spec;
}

function Play(
  props: ByCodeProps & {
    readonly chart: Chart;
    readonly spec: DrillSpec;
    readonly begun: Run | null;
  },
) {
  const { model, stopwatch, chart, code, begun, leave } = props;
  const [run] = useState(() => begun?.run ?? model.now().toString(36));
  const session = useMemo(() => {
    const { cards, log, settings, append, now, today } = model;
    const drill = createDrill(chart, parsedSpec(code));
    const ports = { chart, cards, log, settings, append, now, today, stopwatch };
    return createDrillSession({ ...ports, drill, run });
  }, [model, chart, code, run, stopwatch]);
  const { spec } = props;
  if (session.phase.value.at === 'over' && session.answered.value === 0) {
    return <Refused say="This chart has no question that the drill asks for." />;
  }
  return (
    <DrillScreen
      session={session}
      chart={chart}
      settings={model.settings.value}
      count={spec.count}
      given={spec.given}
      stop={() => leave(session.answered.peek() > 0 ? run : null)}
    />
  );
}

function Refused({ say }: { readonly say: string }) {
  return (
    <Page title="Drill">
      <section class="sheet drill-notice">
        <p role="alert">{say}</p>
        <ToDrills />
      </section>
    </Page>
  );
}

/** Says why this chart cannot ask the drill as it was made, and offers what to play instead. */
function Elsewhere(props: {
  readonly spec: DrillSpec;
  readonly chart: Chart;
  readonly play: () => void;
}) {
  const { spec, chart, play } = props;
  const { printStep } = chart.document;
  const tooFine = spec.tolerance < printStep;
  const otherNumbers = spec.print !== printOf(chart);
  const step = formatDecimal(printStep);
  return (
    <Page title="Drill">
      <section class="sheet drill-notice">
        <h2>{otherNumbers ? 'Made with other numbers' : 'Finer than your chart'}</h2>
        {otherNumbers && (
          <p>
            Your chart’s numbers differ from the sender’s: another chart, another revision of it, or
            a number that names another point (Settings). You can play it with yours, but your
            questions and results will not be quite theirs.
          </p>
        )}
        {tooFine && (
          <p>
            It has a tolerance of {formatDecimal(spec.tolerance)}, which is finer than your chart
            prints. You play it within {step}.
          </p>
        )}
        <button type="button" class="key call" onClick={play}>
          {otherNumbers ? 'Play with my numbers' : `Play within ${step}`}
        </button>
        <ToDrills />
      </section>
    </Page>
  );
}
