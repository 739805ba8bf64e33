import { useState } from 'preact/hooks';
import type { LogState } from '../../../scheduler/index.ts';
import type { Occasion } from '../../../store/index.ts';
import { fileNameOf } from '../../device/file-name.ts';
import type { Files } from '../../device/files.ts';
import type { Model } from '../../state/model.ts';
import { CALENDAR_TYPE, calendarOf } from './calendar.ts';
import { clockTime, firstSession } from './session-time.ts';

type CalendarModel = Pick<Model, 'now' | 'log'>;

const USUAL_TIME = '19:00';

/** Saves the planned sessions as a file that any calendar can read. */
export function CalendarKeys(props: {
  readonly model: CalendarModel;
  readonly occasion: Occasion;
  readonly files: Files;
}) {
  const { model, occasion, files } = props;
  const [time, setTime] = useState(USUAL_TIME);
  const [said, say] = useState<{ readonly good: boolean; readonly text: string } | null>(null);
  const save = (): void => {
    const minutes = clockTime(time);
    if (minutes === null) {
      say({ good: false, text: 'Give a time of day, with hours and minutes.' });
      return;
    }
    const { name, file, sessions } = calendarFile(model, occasion, minutes);
    files.save(name, file);
    say({ good: true, text: `Saved as ${name}: ${sessionWords(sessions)}.` });
  };
  return (
    <div class="stack calendar-keys">
      <h3>Reminders in your calendar</h3>
      <p class="soft-words">
        A file with a session a day until then, which your calendar reminds you of. Import it anew
        after a change: it takes the place of the one before.
      </p>
      <div class="actions">
        <label class="field">
          A session begins at
          <input type="time" value={time} onInput={(event) => setTime(event.currentTarget.value)} />
        </label>
        <button type="button" class="key" onClick={save}>
          Save the calendar file
        </button>
      </div>
      <p class={said?.good === false ? 'problem' : 'soft-words'} role="status">
        {said?.text}
      </p>
    </div>
  );
}

/**
 * Makes the calendar file.
 * @param time when a session begins, in minutes after midnight
 */
function calendarFile(model: CalendarModel, occasion: Occasion, time: number) {
  const at = model.now();
  const first = firstSession(new Date(at), time);
  const player = playerIn(model.log.value);
  const text = calendarOf({ ...occasion, player, first, time, at });
  return {
    name: `${fileNameOf(occasion.name)}.ics`,
    file: new Blob([text], { type: CALENDAR_TYPE }),
    sessions: occasion.day - first,
  };
}

/** Returns the first device id in the log, which is the same on all devices that share the log. */
function playerIn({ devices }: LogState): string {
  return [...devices.keys()].sort()[0] ?? '';
}

function sessionWords(count: number): string {
  if (count <= 0) return 'the day alone, for no session is left before it';
  return `${count === 1 ? 'one session' : `${count} sessions`} and the day`;
}
