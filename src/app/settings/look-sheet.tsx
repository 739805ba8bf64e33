import type { Settings, SettingsChange } from '../../store/index.ts';
import { Choice } from '../parts/controls.tsx';

/** Changes when the day begins, and how the app looks. */
export function LookSheet(props: {
  readonly settings: Settings;
  readonly change: (part: SettingsChange) => void;
}) {
  const { settings, change } = props;
  return (
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
  );
}
