import { useEffect, useState } from 'preact/hooks';
import type { DeviceStorage } from '../../device/device-storage.ts';
import type { Files } from '../../device/files.ts';
import type { Model } from '../../state/model.ts';
import { backupWords, isLow, type Room, sizeWords } from './keeping.ts';
import { REFUSED } from './notice.tsx';
import { type Report, RestoreButton, restoreBackup } from './restoring.tsx';
import { askToPersist, BACKUP_NAME, isPersisted, readMark, roomIn, saveBackup } from './storage.ts';

interface SheetProps {
  readonly model: Pick<Model, 'log' | 'now' | 'exportBackup' | 'importBackup'>;
  readonly files: Files;
  readonly storage: DeviceStorage;
}

/**
 * Says where the answers are stored and whether they stay there, and saves or restores a backup.
 */
export function KeepingSheet({ model, files, storage }: SheetProps) {
  const { steps } = model.log.value;
  const [said, say] = useState<Report | null>(null);
  const [mark, setMark] = useState(() => readMark(storage));
  const save = async (): Promise<void> => {
    say(await backUp({ model, files, storage }));
    setMark(readMark(storage));
  };
  const restore = async (file: File): Promise<void> => say(await restoreBackup(model, files, file));
  return (
    <section class="sheet">
      <h2>Your answers</h2>
      <Promised storage={storage} steps={steps} />
      <h3>Backup</h3>
      <p class="soft-words">
        One file with every answer, chart and setting. Restoring adds what is missing here and loses
        nothing; settings are taken only by a device that has no answers yet.
      </p>
      <p class="last-backup">{backupWords(mark, steps, model.now())}</p>
      <div class="backup-actions">
        <button type="button" class="key quiet" onClick={() => void save()}>
          Save a backup
        </button>
        <RestoreButton onFile={(file) => void restore(file)} />
      </div>
      <p class={said?.good === false ? 'problem' : 'soft-words'} role="status">
        {said?.text}
      </p>
    </section>
  );
}

async function backUp({ model, files, storage }: SheetProps): Promise<Report> {
  try {
    await saveBackup(model, storage, files.save);
    return { good: true, text: `Saved as ${BACKUP_NAME}.` };
  } catch (error) {
    console.error('No backup:', error);
    const text = 'The browser refused to read what is stored. No backup was saved.';
    return { good: false, text };
  }
}

/** Says whether the browser has promised to keep the data, and how much room there is. */
function Promised({ storage, steps }: { readonly storage: DeviceStorage; readonly steps: number }) {
  const { persisted, room, said, ask } = usePromise(storage, steps);
  return (
    <>
      <p class="promised">{promisedWords(persisted)}</p>
      {persisted === false && said === '' && (
        <div class="backup-actions">
          <button type="button" class="key quiet" onClick={() => void ask()}>
            Ask the browser to keep them
          </button>
        </div>
      )}
      <p class="soft-words" role="status">
        {said}
      </p>
      {room && (
        <p class="soft-words room">
          The app and its data use {sizeWords(room.used)} of the {sizeWords(room.given)} that the
          browser gives.
          {isLow(room) && ' That is little: make room on the device, and save a backup.'}
        </p>
      )}
    </>
  );
}

function usePromise(storage: DeviceStorage, steps: number) {
  const [persisted, setPersisted] = useState<boolean | null>(null);
  const [room, setRoom] = useState<Room | null>(null);
  const [said, say] = useState('');
  useEffect(() => {
    void isPersisted(storage).then(setPersisted);
    void roomIn(storage).then(setRoom);
  }, [storage, steps]);
  const ask = async (): Promise<void> => {
    const promised = await askToPersist(storage);
    setPersisted(promised);
    say(promised ? '' : REFUSED);
  };
  return { persisted, room, said, ask };
}

function promisedWords(persisted: boolean | null): string {
  if (persisted) return 'They are in this browser, which has promised to keep them.';
  if (persisted === null)
    return 'They are in this browser, which does not say whether it will keep them: save a backup now and then.';
  return 'They are in this browser, which has not promised to keep them: it may clear them when the device runs short of space, or when the page was not opened for some weeks.';
}
