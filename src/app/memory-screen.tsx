import { useEffect, useMemo } from 'preact/hooks';
import type { Files } from './files.ts';
import { CurveSheet } from './memory-curve.tsx';
import type { MemoryData } from './memory-data.ts';
import { HeldNow } from './memory-held.tsx';
import { CalibrationSheet, YieldSheet } from './memory-history.tsx';
import { linesHeld } from './memory-lines.ts';
import { LoadSheet } from './memory-load.tsx';
import { PatternHolds } from './memory-pattern.tsx';
import { WeakSheet } from './memory-weak.tsx';
import type { Model } from './model.ts';
import { OccasionSheet } from './occasion-sheet.tsx';
import { Page } from './page.tsx';
import './style/memory.css';

/** What the player holds, now and on the day that counts. */
export function MemoryScreen({ model, files }: { readonly model: Model; readonly files: Files }) {
  const outlook = model.outlook.value;
  const data: MemoryData = {
    log: model.log.value,
    cards: model.cards.value,
    chart: model.chart.value,
    today: model.day.value,
    plan: outlook.at === 'made' ? outlook.reply : null,
    history: null,
  };
  const { cards, log, today, history } = data;
  const settings = model.settings.value;
  const { occasion } = settings;
  useEffect(model.replan, [log, cards, settings, today]);
  const lines = useMemo(() => linesHeld(cards, log, today), [cards, log, today]);
  return (
    <Page title="Memory">
      <div class="memory">
        <HeldNow data={data} occasion={occasion} />
        <OccasionSheet model={model} data={data} files={files} />
        <CurveSheet data={data} occasion={occasion} />
        <LoadSheet model={model} data={data} />
        <PatternHolds data={data} lines={lines} />
        <WeakSheet data={data} lines={lines} />
        <YieldSheet data={data} />
        <CalibrationSheet history={history} />
        <p class="caution">
          A forecast is an aid, made from your answers here: what you hold under pressure at the
          table is for the table to say.
        </p>
      </div>
    </Page>
  );
}
