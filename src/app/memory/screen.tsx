import './memory.css';
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { LogState } from '../../scheduler/index.ts';
import type { Historian, History } from '../../workers/index.ts';
import { Page } from '../parts/page.tsx';
import type { AppPorts } from '../ports.ts';
import type { Model } from '../state/model.ts';
import { BiasSheet } from './bias-sheet.tsx';
import { CurveSheet } from './curve.tsx';
import type { MemoryData } from './data.ts';
import { HabitsSheet } from './habits-sheet.tsx';
import { HeldNow } from './held.tsx';
import { CalibrationSheet, YieldSheet } from './history.tsx';
import { linesHeld } from './lines.ts';
import { LoadSheet } from './load.tsx';
import { NotStickingSheet } from './not-sticking-sheet.tsx';
import { OccasionSheet } from './occasion/sheet.tsx';
import { PatternHolds } from './pattern.tsx';
import { WeakSheet } from './weak.tsx';
import { WeightsSheet } from './weights-sheet.tsx';

type MemoryPorts = Pick<AppPorts, 'model' | 'files' | 'historian' | 'weightsWorker'>;

/** Shows what the player holds, now and on the day of the occasion. */
export function MemoryScreen({ model, files, historian, weightsWorker }: MemoryPorts) {
  const data = useMemoryData(model, historian);
  const { cards, log, today, history } = data;
  const settings = model.settings.value;
  const { occasion } = settings;
  useEffect(model.forecast, [log, cards, settings, today]);
  const lines = useMemo(() => linesHeld(cards, log, today), [cards, log, today]);
  return (
    <Page title="Memory">
      <div class="sheets in-columns memory">
        <HeldNow data={data} occasion={occasion} />
        <OccasionSheet model={model} data={data} files={files} />
        <CurveSheet data={data} occasion={occasion} />
        <LoadSheet data={data} />
        <PatternHolds data={data} lines={lines} />
        <WeakSheet data={data} lines={lines} />
        <NotStickingSheet model={model} />
        <YieldSheet data={data} />
        <CalibrationSheet history={history} />
        <BiasSheet model={model} />
        <HabitsSheet data={data} />
        <WeightsSheet
          weights={log.model.weights}
          weightsWorker={weightsWorker}
          apply={(weights) => applyWeights(model, weights)}
        />
        <p class="soft-words">
          A forecast is an aid, made from your answers here: what you know under pressure at the
          table is for the table to say.
        </p>
      </div>
    </Page>
  );
}

function useMemoryData(model: Model, historian: Historian): MemoryData {
  const outlook = model.outlook.value;
  return {
    log: model.log.value,
    cards: model.cards.value,
    chart: model.chart.value,
    today: model.day.value,
    forecast: outlook.at === 'made' ? outlook.forecast : null,
    history: useHistory(historian, model.log.value, model.day.value),
  };
}

async function applyWeights(
  model: Pick<Model, 'append' | 'today' | 'now'>,
  weights: readonly number[] | null,
): Promise<void> {
  const taken = weights && [...weights];
  await model.append({
    type: 'weights taken',
    weights: taken,
    day: model.today(),
    at: model.now(),
  });
}

/**
 * Returns the history of the whole log. Null until it is computed, and if it cannot be computed.
 */
function useHistory(historian: Historian, log: LogState, today: number): History | null {
  const [history, setHistory] = useState<History | null>(null);
  useEffect(() => {
    let wanted = true;
    historian.ask({ today }, (answered) => {
      if (!wanted) return;
      if (answered.ok) setHistory(answered.answer);
      else console.error('The history could not be gone through:', answered.say);
    });
    return () => {
      wanted = false;
    };
  }, [historian, log, today]);
  return history;
}
