import { isSkill, KINDS, type Kind } from '../../cards/index.ts';
import { type PatternId, patternOf } from '../../charts/index.ts';
import { KIND_NAMES, KIND_NOTES, useOf } from '../../quiz/index.ts';
import { type Settings, type SettingsChange, USES } from '../../store/index.ts';
import { Choice } from '../parts/controls.tsx';

interface KindsProps {
  readonly settings: Settings;
  readonly patterns: readonly PatternId[];
  readonly change: (part: SettingsChange) => void;
}

/**
 * Changes which kinds of question the daily quiz asks, and how often each pattern comes up at the
 * player's table.
 */
export function KindsSheet({ settings, patterns, change }: KindsProps) {
  const choose = (kind: Kind, on: boolean): void =>
    change(({ kinds }) => ({
      kinds: KINDS.filter((one) => (one === kind ? on : kinds.includes(one))),
    }));
  return (
    <section class="sheet">
      <h2>What is asked</h2>
      <fieldset class="checks">
        <legend class="soft-words">
          In the daily quiz. A kind that is off keeps its memory and waits.
        </legend>
        {KINDS.map((kind) => (
          <Check
            key={kind}
            label={KIND_NAMES[kind]}
            note={kind === 'number' ? `${KIND_NOTES[kind]} Always asked.` : KIND_NOTES[kind]}
            on={kind === 'number' || settings.kinds.includes(kind)}
            fixed={kind === 'number'}
            turn={(on) => choose(kind, on)}
          />
        ))}
      </fieldset>
      <Check
        label="Show the known numbers"
        note={`Beside the questions that are worked out from two numbers: ${skillNames()}.`}
        on={settings.given}
        fixed={false}
        turn={(given) => change({ given })}
      />
      <UseDetails settings={settings} patterns={patterns} change={change} />
    </section>
  );
}

/** Returns a list such as "arrival, in between, rail ball and off the rail". */
function skillNames(): string {
  const names = KINDS.filter(isSkill).map((kind) => KIND_NAMES[kind].toLowerCase());
  return `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

function Check(props: {
  readonly label: string;
  readonly note: string;
  readonly on: boolean;
  /** Whether the choice cannot be changed. */
  readonly fixed: boolean;
  readonly turn: (on: boolean) => void;
}) {
  return (
    <label class="check">
      <input
        type="checkbox"
        checked={props.on}
        disabled={props.fixed}
        onChange={(event) => props.turn(event.currentTarget.checked)}
      />
      <span>
        <strong>{props.label}</strong>
        <span class="soft-words">{props.note}</span>
      </span>
    </label>
  );
}

function UseDetails({ settings, patterns, change }: KindsProps) {
  return (
    <details class="uses">
      <summary>How often each pattern comes up</summary>
      <p class="soft-words">
        At your table. A rehearsal asks what comes up often more than what seldom does; the daily
        quiz asks every pattern alike.
      </p>
      {patterns.map((pattern) => (
        <Choice
          key={pattern}
          label={patternOf(pattern).name}
          value={useOf(settings.use, pattern)}
          options={USES.map((use) => [use, use])}
          onChoose={(chosen) => change(({ use }) => ({ use: { ...use, [pattern]: chosen } }))}
        />
      ))}
    </details>
  );
}
