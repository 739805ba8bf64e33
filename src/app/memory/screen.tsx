import './memory.css';
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { LogState } from '../../scheduler/index.ts';
import type { Historian, History, WeightsWorker } from '../../workers/index.ts';
import type { Files } from '../device/files.ts';
import { Page } from '../parts/page.tsx';
import type { Model } from '../state/model.ts';
import { BiasSheet } from './bias-sheet.tsx';
import { CurveSheet } from './curve.tsx';
import type { MemoryData } from './data.ts';
import { HeldNow } from './held.tsx';
import { CalibrationSheet, YieldSheet } from './history.tsx';
import { linesHeld } from './lines.ts';
import { LoadSheet } from './load.tsx';
import { OccasionSheet } from './occasion/sheet.tsx';
import { PatternHolds } from './pattern.tsx';
import { WeakSheet } from './weak.tsx';
import { WeightsSheet } from './weights-sheet.tsx';

/** What the player holds, now and on the day that counts. */
interface MemoryProps {
  readonly model: Model;
  readonly files: Files;
  /** Begins the worker that goes through the whole log, when it is first asked for. */
  readonly historian: Historian;
  readonly weightsWorker: WeightsWorker;
}

export function MemoryScreen({ model, files, historian, weightsWorker }: MemoryProps) {
  const outlook = model.outlook.value;
  const data: MemoryData = {
    log: model.log.value,
    cards: model.cards.value,
    chart: model.chart.value,
    today: model.day.value,
    plan: outlook.at === 'made' ? outlook.reply : null,
    history: useHistory(historian, model.log.value, model.day.value),
  };
  const { cards, log, today, history } = data;
  const settings = model.settings.value;
  const { occasion } = settings;
  useEffect(model.replan, [log, cards, settings, today]);
  const lines = useMemo(() => linesHeld(cards, log, today), [cards, log, today]);
  return (
    <Page title="Memory">
      <div class="sheets in-columns memory">
        <HeldNow data={data} occasion={occasion} />
        <OccasionSheet model={model} data={data} files={files} />
        <CurveSheet data={data} occasion={occasion} />
        <LoadSheet model={model} data={data} />
        <PatternHolds data={data} lines={lines} />
        <WeakSheet data={data} lines={lines} />
        <YieldSheet data={data} />
        <CalibrationSheet history={history} />
        <BiasSheet model={model} />
        <WeightsSheet
          weights={log.model.weights}
          weightsWorker={weightsWorker}
          take={async (weights) => {
            const taken = weights && [...weights];
            await model.append({
              type: 'weights taken',
              weights: taken,
              day: model.today(),
              at: model.now(),
            });
          }}
        />
        <p class="soft-words">
          A forecast is an aid, made from your answers here: what you hold under pressure at the
          table is for the table to say.
        </p>
      </div>
    </Page>
  );
}

/** What came of all answers; null until it was gone through, or if it could not be. */
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
