import { toleranceFor } from '../../cards/index.ts';
import { type SettingsChange, toleranceOf } from '../../store/index.ts';
import { Page } from '../parts/page.tsx';
import { Problem, useSaving } from '../parts/saving.tsx';
import type { AppPorts } from '../ports.ts';
import { EarSheet } from './ear-sheet.tsx';
import { GoodToKnow } from './good-to-know.tsx';
import { KeepingSheet } from './keeping/sheet.tsx';
import { KindsSheet } from './kinds.tsx';
import { LookSheet } from './look-sheet.tsx';
import { OfflineSheet } from './offline-sheet.tsx';
import { QuestionsSheet } from './questions-sheet.tsx';
import { SyncSheet } from './sync-sheet.tsx';

type SettingsPorts = Pick<AppPorts, 'model' | 'files' | 'storage' | 'offline' | 'loadSyncing'>;

export function SettingsScreen(props: SettingsPorts) {
  const { model, files, storage, offline, loadSyncing } = props;
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
        <QuestionsSheet settings={settings} printStep={document.printStep} change={change} />
        <EarSheet settings={settings} change={change} />
        <LookSheet settings={settings} change={change} />
        <KindsSheet settings={settings} patterns={patterns} change={change} />
        <KeepingSheet model={model} files={files} storage={storage} />
        <OfflineSheet offline={offline} />
        <SyncSheet load={loadSyncing} />
        <GoodToKnow tolerance={tolerance} />
      </div>
    </Page>
  );
}
