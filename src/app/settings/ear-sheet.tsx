import { PAUSES, type Settings, VOICE_RATES } from '../../store/index.ts';
import { Choice } from '../parts/controls.tsx';

const RATE_NAMES: Readonly<Record<Settings['voiceRate'], string>> = {
  0.8: 'slow',
  1: 'as usual',
  1.2: 'quick',
};

/** Changes the settings of practice by ear. */
export function EarSheet(props: {
  readonly settings: Settings;
  readonly change: (part: Partial<Settings>) => void;
}) {
  const { settings, change } = props;
  return (
    <section class="sheet">
      <h2>By ear</h2>
      <Choice
        label="Pause before the number"
        value={settings.pauseSeconds}
        options={PAUSES.map((seconds) => [seconds, `${seconds} seconds`])}
        onChoose={(pauseSeconds) => change({ pauseSeconds })}
      />
      <Choice
        label="Voice"
        note="Only voices that are on the device are used: nothing is sent."
        value={settings.voiceRate}
        options={VOICE_RATES.map((rate) => [rate, RATE_NAMES[rate]])}
        onChoose={(voiceRate) => change({ voiceRate })}
      />
    </section>
  );
}
