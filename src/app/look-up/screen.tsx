import './look-up.css';
import { useMemo, useState } from 'preact/hooks';
import { type FoundPath, type LookedUp, lookUp } from '../../cards/index.ts';
import { type Chart, toDecimal } from '../../charts/index.ts';
import { PlacePicker } from '../../figure/index.ts';
import { railName } from '../../quiz/index.ts';
import { RAILS } from '../../table/index.ts';
import { fileNameOf } from '../device/file-name.ts';
import { Page } from '../parts/page.tsx';
import { SaveFigure } from '../parts/save-figure.tsx';
import { NO_SHOT, PRINTED, pick, placeWords, type Shot } from '../parts/shot.ts';
import type { AppPorts } from '../ports.ts';
import { tonightOf } from '../state/tonight.ts';
import { Hint, ShotEnds } from './ends.tsx';
import { lineOf } from './line.ts';
import { Results } from './results.tsx';

/**
 * A tap sets a place to half a diamond, because a finger is no more accurate. Buttons move it by
 * less.
 */
const STEP = 0.5;

/** Shows the numbers for any start and any target. It asks nothing and stores nothing. */
export function LookUpScreen({ model, files }: Pick<AppPorts, 'model' | 'files'>) {
  const chart = model.chart.value;
  const [shot, setShot] = useState<Shot>(NO_SHOT);
  const [chosen, choose] = useState(0);
  const looked = useMemo(() => resultOf(chart, shot), [chart, shot.start, shot.target]);
  const log = model.log.value;
  const day = model.day.value;
  const tonight = useMemo(() => tonightOf(log, chart, day), [log.shots, chart, day]);
  const change = (next: Shot): void => {
    if (next.start !== shot.start || next.target !== shot.target) choose(0);
    setShot(next);
  };
  const path = looked?.found[chosen] ?? null;
  return (
    <Page title="Look up">
      <div class="look-up-room">
        <div class="look-up">
          <div class="look-up-shot">
            <Hint shot={shot} />
            <ShotFigure chart={chart} shot={shot} path={path} change={change} />
            <ShotEnds shot={shot} path={path} change={change} />
            {path && <SaveFigure files={files} name={fileNameOf('look up', path.pattern)} />}
          </div>
          <Results
            chart={chart}
            shot={shot}
            looked={looked}
            say={tonight.corrections}
            chosen={chosen}
            choose={choose}
          />
        </div>
      </div>
    </Page>
  );
}

function resultOf(chart: Chart, { start, target }: Shot): LookedUp | null {
  if (!start || !target) return null;
  return lookUp(chart, { count: start.count, diamond: toDecimal(start.diamond) }, target);
}

function ShotFigure(props: {
  readonly chart: Chart;
  readonly shot: Shot;
  readonly path: FoundPath | null;
  readonly change: (shot: Shot) => void;
}) {
  const { chart, shot, path } = props;
  const line = useMemo(() => (path ? lineOf(chart, path) : null), [chart, path]);
  return (
    <PlacePicker
      frame={{ table: chart.setting.table, mirror: PRINTED }}
      step={STEP}
      places={placesOf(shot)}
      label={shot.next === 'start' ? 'Pick the start' : 'Pick the target'}
      rails={RAILS}
      nameOf={placeWords}
      railName={(rail) => railName(rail, PRINTED)}
      onPick={(place) => props.change(pick(shot, place))}
      {...(line ? { line } : {})}
    />
  );
}

function placesOf({ start, target }: Shot) {
  return [
    ...(start ? [{ as: 'start', place: start } as const] : []),
    ...(target ? [{ as: 'target', place: target } as const] : []),
  ];
}
