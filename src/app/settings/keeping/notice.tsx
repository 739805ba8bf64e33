/** Warns that the storage was emptied, is nearly full, or may be cleared. */

import { useEffect, useState } from 'preact/hooks';
import type { DeviceStorage } from '../../device/device-storage.ts';
import type { Files } from '../../device/files.ts';
import type { Model } from '../../state/model.ts';
import {
  isEmptied,
  isLow,
  isTimeToOffer,
  markOf,
  NO_MARK,
  type Room,
  sizeWords,
} from './keeping.ts';
import { RestoreButton, restoreBackup } from './restoring.tsx';
import {
  askToPersist,
  BACKUP_NAME,
  changeMark,
  isPersisted,
  readMark,
  roomIn,
  saveBackup,
} from './storage.ts';

export interface NoticeProps {
  readonly model: Pick<Model, 'log' | 'now' | 'exportBackup' | 'importBackup'>;
  readonly files: Files;
  readonly storage: DeviceStorage;
  /** Whether this screen may ask the player something. */
  readonly mayAsk: boolean;
}

export function KeepingNotice(props: NoticeProps) {
  const { model, storage } = props;
  const log = model.log.value;
  const [mark, setMark] = useState(() => readMark(storage));
  const [room, setRoom] = useState<Room | null>(null);
  const [persisted, setPersisted] = useState<boolean | null>(null);
  useEffect(() => {
    void roomIn(storage).then(setRoom);
    void isPersisted(storage).then(setPersisted);
  }, [storage, log.steps]);
  useEffect(() => {
    changeMark(storage, (old) => markOf(old, log));
    setMark(readMark(storage));
  }, [storage, log]);
  if (isEmptied(mark, log)) {
    const forget = (): void => {
      changeMark(storage, () => markOf(NO_MARK, log));
      setMark(readMark(storage));
    };
    return <Emptied {...props} steps={mark.steps} forget={forget} />;
  }
  if (room && isLow(room)) return <Low {...props} left={Math.max(0, room.given - room.used)} />;
  if (!props.mayAsk || !isTimeToOffer(mark, persisted, log.steps)) return null;
  const answered = (): void => {
    changeMark(storage, (old) => ({ ...old, offered: true }));
    setMark(readMark(storage));
  };
  return <Offer storage={storage} answered={answered} />;
}

function Emptied(props: NoticeProps & { readonly steps: number; readonly forget: () => void }) {
  const { model, files, steps, forget } = props;
  const [said, say] = useState('');
  const restore = async (file: File): Promise<void> => {
    const { good, text } = await restoreBackup(model, files, file);
    if (good) forget();
    else say(text);
  };
  return (
    <section class="notice keeping" aria-label="Answers are missing">
      <p>
        {steps === 1 ? 'An answer was' : `${steps} answers were`} on this device and{' '}
        {steps === 1 ? 'is' : 'are'} gone: the site’s data was cleared, by the browser or by hand. A
        backup brings back what it holds.
      </p>
      <div class="backup-actions">
        <RestoreButton onFile={restore} />
        <button type="button" class="key quiet" onClick={forget}>
          Begin afresh
        </button>
      </div>
      <p class="problem" role="status">
        {said}
      </p>
    </section>
  );
}

function Low({ model, files, storage, left }: NoticeProps & { readonly left: number }) {
  const [said, say] = useState('');
  const save = (): void => {
    saveBackup(model, storage, files.save).then(
      () => say(`Saved as ${BACKUP_NAME}.`),
      () => say('The browser refused to read what is stored. No backup was saved.'),
    );
  };
  return (
    <section class="notice keeping" aria-label="Little room is left">
      <p>
        Little room is left for your answers: about {sizeWords(left)}. Answers are kept as long as
        there is any; make room on the device, and save a backup elsewhere.
      </p>
      <div class="backup-actions">
        <button type="button" class="key quiet" onClick={save}>
          Save a backup
        </button>
      </div>
      <p role="status">{said}</p>
    </section>
  );
}

function Offer(props: { readonly storage: DeviceStorage; readonly answered: () => void }) {
  const [said, say] = useState('');
  const ask = async (): Promise<void> => {
    if (await askToPersist(props.storage)) props.answered();
    else say(REFUSED);
  };
  return (
    <section class="notice keeping" aria-label="Keep your answers">
      <p>
        Your answers are in this browser alone. It may clear them when the device runs short of
        space, or when the page was not opened for some weeks, unless it is asked to keep them.
      </p>
      <p role="status">{said}</p>
      <div class="backup-actions">
        {said === '' && (
          <button type="button" class="key quiet" onClick={() => void ask()}>
            Ask it to keep them
          </button>
        )}
        <button type="button" class="key quiet" onClick={props.answered}>
          {said === '' ? 'Not now' : 'Understood'}
        </button>
      </div>
    </section>
  );
}

export const REFUSED =
  'Your browser declined. Many agree once a page is used often or installed. Ask again later in Settings, and save a backup now and then.';
