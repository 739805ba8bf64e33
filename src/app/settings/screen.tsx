import type { ReadonlySignal } from '@preact/signals';
import { toleranceFor } from '../../cards/index.ts';
import { type Decimal, formatDecimal } from '../../charts/index.ts';
import {
  NEW_LINES,
  type SettingsChange,
  TARGETS,
  TOLERANCES,
  toleranceOf,
} from '../../store/index.ts';
import type { DeviceStorage } from '../device/device-storage.ts';
import type { Files } from '../device/files.ts';
import type { Offline } from '../device/offline.ts';
import { Choice } from '../parts/controls.tsx';
import { Page } from '../parts/page.tsx';
import { Problem, useSaving } from '../parts/saving.tsx';
import type { Model } from '../state/model.ts';
import type { Syncing } from '../state/syncing.ts';
import { EarSheet } from './ear-sheet.tsx';
import { GoodToKnow } from './good-to-know.tsx';
import { KeepingSheet } from './keeping/sheet.tsx';
import { KindsSheet } from './kinds.tsx';
import { OfflineSheet } from './offline-sheet.tsx';
import { SyncSheet } from './sync-sheet.tsx';

interface Props {
  readonly model: Model;
  readonly files: Files;
  readonly storage: DeviceStorage;
  readonly offline: ReadonlySignal<Offline | null>;
  readonly loadSyncing: () => Promise<Syncing>;
}

export function SettingsScreen({ model, files, storage, offline, loadSyncing }: Props) {
  const settings = model.settings.value;
  const { problem, save } = useSaving();
  const change = (part: SettingsChange): void => {
    save(model.changeSettings(part));
  };
  const { document, patterns } = model.chart.value;
  const tolerance = toleranceFor(toleranceOf(settings), document.printStep);
  return (
    <Page title="Settings">
      <div class="sheets in-columns">
        <Problem say={problem} />
        <section class="sheet">
          <h2>Questions</h2>
          <Choice
            label="Tolerance"
            note={toleranceWords(settings.tolerance, document.printStep)}
            value={settings.tolerance}
            options={TOLERANCES.map((units) => [
              units,
              `${formatDecimal(units as number as Decimal)} diamond`,
            ])}
            onChoose={(tolerance) => change({ tolerance })}
          />
          <Choice
            label="New lines a day"
            value={settings.newLinesPerDay}
            options={NEW_LINES.map((count) => [count, String(count)])}
            onChoose={(newLinesPerDay) => change({ newLinesPerDay })}
          />
          <Choice
            label="Learn by heart"
            note={
              settings.kinds.includes('in between')
                ? 'Between two anchors the proportional rule gives the number within the tolerance.'
                : 'In between is not asked, so every line is learned by heart.'
            }
            value={settings.byHeart}
            options={[
              ['anchors', 'anchors; the rest is worked out'],
              ['every line', 'every line, anchors first'],
            ]}
            onChoose={(byHeart) => change({ byHeart })}
          />
          <Choice
            label="Target recall"
            note="A line is asked again when your chance of knowing it has fallen to this."
            value={settings.targetRecall}
            options={TARGETS.map((target) => [target, `${Math.round(target * 100)} %`])}
            onChoose={(targetRecall) => change({ targetRecall })}
          />
          <Choice
            label="Pictures"
            note="Every line can be met at four places of the table."
            value={settings.pictures}
            options={[
              ['all', 'all four mirrorings'],
              ['one', 'as printed only'],
            ]}
            onChoose={(pictures) => change({ pictures })}
          />
          <Choice
            label="A number names"
            note="A number for the other point is another number: each has a memory of its own."
            value={settings.naming}
            options={[
              ['through', 'the sight the line runs through'],
              ['opposite', 'the point of the nose it crosses'],
            ]}
            onChoose={(naming) => change({ naming })}
          />
          <Choice
            label="A new line is"
            value={settings.meetFirst ? 'shown' : 'asked'}
            options={[
              ['shown', 'shown before it is asked'],
              ['asked', 'asked at once'],
            ]}
            onChoose={(how) => change({ meetFirst: how === 'shown' })}
          />
        </section>
        <EarSheet settings={settings} change={change} />
        <section class="sheet">
          <h2>Day and look</h2>
          <Choice
            label="The day begins at"
            value={settings.dayBoundaryHour}
            options={Array.from({ length: 24 }, (_, hour) => [hour, `${hour}:00`])}
            onChoose={(dayBoundaryHour) => change({ dayBoundaryHour })}
          />
          <Choice
            label="Theme"
            value={settings.theme}
            options={[
              ['system', 'as the device'],
              ['light', 'light'],
              ['dark', 'dark'],
            ]}
            onChoose={(theme) => change({ theme })}
          />
          <Choice
            label="Lengths"
            value={settings.units}
            options={[
              ['in', 'inches'],
              ['cm', 'centimetres'],
            ]}
            onChoose={(units) => change({ units })}
          />
        </section>
        <KindsSheet settings={settings} patterns={patterns} change={change} />
        <KeepingSheet model={model} files={files} storage={storage} />
        <OfflineSheet offline={offline} />
        <SyncSheet load={loadSyncing} />
        <GoodToKnow tolerance={tolerance} />
      </div>
    </Page>
  );
}

/** The tolerance chosen, and the one in force where the chart prints less finely. */
function toleranceWords(chosen: number, printStep: Decimal): string {
  const step = formatDecimal(printStep);
  if (chosen < printStep) return `This chart prints to ${step}, so ${step} is in force.`;
  return 'How far beside the number still counts.';
}
