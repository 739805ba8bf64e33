import type { ReadonlySignal } from '@preact/signals';
import { useState } from 'preact/hooks';
import { toleranceFor } from '../cards/index.ts';
import { type Decimal, formatDecimal } from '../charts/index.ts';
import {
  NEW_LINES,
  type SettingsChange,
  TARGETS,
  TOLERANCES,
  toleranceOf,
} from '../store/index.ts';
import { Choice } from './controls.tsx';
import { EarSheet } from './ear-sheet.tsx';
import type { Files } from './files.ts';
import { GoodToKnow } from './good-to-know.tsx';
import type { Model } from './model.ts';
import type { Offline } from './offline.ts';
import { OfflineSheet } from './offline-sheet.tsx';
import { Page } from './page.tsx';
import { Problem, useSaving } from './saving.tsx';
import { KindsSheet } from './settings-kinds.tsx';
import { SyncSheet } from './sync-sheet.tsx';
import type { Syncing } from './syncing.ts';

interface Props {
  readonly model: Model;
  readonly files: Files;
  readonly offline: ReadonlySignal<Offline | null>;
  readonly loadSyncing: () => Promise<Syncing>;
}

export function SettingsScreen({ model, files, offline, loadSyncing }: Props) {
  const settings = model.settings.value;
  const { problem, save } = useSaving();
  const change = (part: SettingsChange): void => {
    save(model.changeSettings(part));
  };
  const { document, patterns } = model.chart.value;
  const tolerance = toleranceFor(toleranceOf(settings), document.printStep);
  return (
    <Page title="Settings">
      <div class="settings">
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
        <BackupSheet model={model} files={files} />
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

const BACKUP_NAME = 'throughline-backup.json';

/** A labelled choice; values keep their type through the option's index. */
function BackupSheet({ model, files }: { readonly model: Model; readonly files: Files }) {
  const [said, say] = useState<{ readonly good: boolean; readonly text: string } | null>(null);
  const save = async (): Promise<void> => {
    try {
      files.save(BACKUP_NAME, await model.exportBackup());
      say({ good: true, text: `Saved as ${BACKUP_NAME}.` });
    } catch {
      say({
        good: false,
        text: 'The browser refused to read what is stored. No backup was saved.',
      });
    }
  };
  const restore = async (file: File): Promise<void> => {
    try {
      const result = await model.importBackup(await files.read(file));
      say(result.ok ? { good: true, text: addedWords(result) } : { good: false, text: result.say });
    } catch {
      say({ good: false, text: 'The browser refused to write the backup. Nothing was changed.' });
    }
  };
  return (
    <section class="sheet">
      <h2>Backup</h2>
      <p class="soft-words">
        One file with every answer, chart and setting. Restoring adds what is missing here and loses
        nothing; settings are taken only by a device that has no answers yet.
      </p>
      <div class="backup-actions">
        <button type="button" class="key quiet" onClick={save}>
          Save a backup
        </button>
        <FileButton label="Restore from a file" onFile={restore} />
      </div>
      <p class={said?.good === false ? 'problem' : 'soft-words'} role="status">
        {said?.text}
      </p>
    </section>
  );
}

function FileButton(props: { readonly label: string; readonly onFile: (file: File) => void }) {
  return (
    <label class="key quiet file">
      {props.label}
      <input
        type="file"
        accept="application/json,.json"
        onChange={(event) => {
          const input = event.currentTarget;
          const file = input.files?.[0];
          if (file) props.onFile(file);
          // So that the same file can be chosen again.
          input.value = '';
        }}
      />
    </label>
  );
}

function addedWords({
  added,
  charts,
}: {
  readonly added: number;
  readonly charts: number;
}): string {
  if (added === 0 && charts === 0)
    return 'Nothing was missing: all of that backup was here already.';
  const parts = [
    added > 0 ? `${added} ${added === 1 ? 'entry' : 'entries'} of the log` : '',
    charts > 0 ? `${charts} ${charts === 1 ? 'chart' : 'charts'}` : '',
  ];
  return `Restored ${parts.filter(Boolean).join(' and ')}.`;
}
