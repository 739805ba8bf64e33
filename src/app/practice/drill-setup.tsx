import { useMemo, useState } from 'preact/hooks';
import { KINDS, ZONES } from '../../cards/index.ts';
import { type PatternId, patternOf } from '../../charts/index.ts';
import { COUNTS, drillCards, KIND_NAMES, type Run, zoneRange } from '../../quiz/index.ts';
import { OneOf } from '../parts/controls.tsx';
import {
  type Choices,
  firstChoices,
  freshCode,
  patternsOf,
  plannedDrill,
} from '../parts/drill-plan.ts';
import { ManyOf } from '../parts/many-of.tsx';
import { Problem, useSaving } from '../parts/saving.tsx';
import type { Model } from '../state/model.ts';

interface SetupProps {
  readonly model: Pick<Model, 'chart' | 'settings' | 'changeSettings' | 'now'>;
  readonly runs: readonly Run[];
  readonly start: (code: string) => void;
}

/** Sets up a drill: what it asks, how many questions it has, and at which speeds. */
export function DrillSetup({ model, runs, start }: SetupProps) {
  const chart = model.chart.value;
  const settings = model.settings.value;
  const [choices, choose] = useState(() => firstChoices(chart, runs));
  const set = (part: Partial<Choices>): void => choose({ ...choices, ...part });
  const drill = useMemo(() => plannedDrill(model, choices), [model, chart, settings, choices]);
  const missing = useMemo(() => missingWords(choices, drillCards(chart, drill).length), [drill]);
  return (
    <section class="sheet drill-setup" aria-labelledby="set-up">
      <h2 id="set-up">Set up a drill</h2>
      <ChoiceFields model={model} choices={choices} set={set} />
      <GivenChoice model={model} />
      <CountsChoice model={model} />
      <div class="drill-start">
        <p class="problem" role="status">
          {missing}
        </p>
        <button
          type="button"
          class="key call wide"
          disabled={missing !== null}
          onClick={() => start(freshCode(model, drill))}
        >
          Start
        </button>
      </div>
    </section>
  );
}

function ChoiceFields(props: {
  readonly model: Pick<Model, 'chart'>;
  readonly choices: Choices;
  readonly set: (part: Partial<Choices>) => void;
}) {
  const { model, choices, set } = props;
  const all = patternsOf(model.chart.value);
  const [first] = choices.patterns;
  const only = choices.patterns.length === 1 && first ? first : null;
  return (
    <>
      <PatternChoice
        all={all}
        chosen={choices.patterns}
        onChoose={(patterns) => set({ patterns })}
      />
      <ManyOf
        legend="Starts"
        all={ZONES}
        chosen={choices.zones}
        words={(zone) => (only ? zoneRange(zone, only) : zone)}
        onChoose={(zones) => set({ zones })}
      />
      <ManyOf
        legend="Kinds"
        all={KINDS}
        chosen={choices.kinds}
        words={(kind) => KIND_NAMES[kind]}
        onChoose={(kinds) => set({ kinds })}
      />
      <LengthChoices choices={choices} set={set} />
    </>
  );
}

/** Lets the player choose how many questions come, and at which speeds. */
function LengthChoices(props: {
  readonly choices: Choices;
  readonly set: (part: Partial<Choices>) => void;
}) {
  const { choices, set } = props;
  return (
    <>
      <OneOf
        legend="Questions"
        name="count"
        options={COUNTS.map((count) => [count, count === null ? 'endless' : String(count)])}
        chosen={choices.count}
        onChoose={(count) => set({ count })}
      />
      <OneOf
        legend="Speeds"
        name="speeds"
        options={[
          ['medium', 'medium only'],
          ['all', 'all three'],
        ]}
        chosen={choices.speeds}
        onChoose={(speeds) => set({ speeds })}
      />
    </>
  );
}

/**
 * Lets the player choose whether known numbers are shown. This is a setting, so it stays for the
 * next drill.
 */
function GivenChoice({ model }: Pick<SetupProps, 'model'>) {
  const { problem, save } = useSaving();
  const setGiven = (given: boolean): void => {
    save(model.changeSettings({ given }));
  };
  return (
    <>
      <OneOf
        legend="Known numbers"
        name="given"
        options={[
          [true, 'shown'],
          [false, 'from the head'],
        ]}
        chosen={model.settings.value.given}
        onChoose={setGiven}
      />
      <Problem say={problem} />
    </>
  );
}

/** Lets the player choose whether drills count. This is a setting, too. */
function CountsChoice({ model }: Pick<SetupProps, 'model'>) {
  const { problem, save } = useSaving();
  return (
    <>
      <label class="check">
        <input
          type="checkbox"
          checked={model.settings.value.drillsCount}
          onChange={({ currentTarget }) =>
            save(model.changeSettings({ drillsCount: currentTarget.checked }))
          }
        />
        <span>
          <strong>Count toward my schedule</strong>
          <span class="soft-words">The first answer of each skill counts, once a day.</span>
        </span>
      </label>
      <Problem say={problem} />
    </>
  );
}

/** A list of patterns that is closed at first, because a dozen names would fill a phone. */
function PatternChoice(props: {
  readonly all: readonly PatternId[];
  readonly chosen: readonly PatternId[];
  readonly onChoose: (chosen: readonly PatternId[]) => void;
}) {
  const { all, chosen, onChoose } = props;
  const [first] = chosen;
  const every = chosen.length === all.length;
  const one = chosen.length === 1 && first ? patternOf(first).name : null;
  return (
    <details class="drill-patterns">
      <summary>
        <strong>Patterns</strong>
        <span>{every ? `all ${all.length}` : (one ?? `${chosen.length} of ${all.length}`)}</span>
      </summary>
      <ManyOf
        legend="Which patterns"
        all={all}
        chosen={chosen}
        words={(id) => patternOf(id).name}
        onChoose={onChoose}
      >
        <button type="button" class="plain" onClick={() => onChoose(every ? [] : all)}>
          {every ? 'None of them' : 'All of them'}
        </button>
      </ManyOf>
    </details>
  );
}

/** Says why the choices make no drill; null if they make one. */
function missingWords({ patterns, zones, kinds }: Choices, cards: number): string | null {
  if (patterns.length === 0) return 'Choose a pattern first.';
  if (zones.length === 0) return 'Choose some starts first.';
  if (kinds.length === 0) return 'Choose a kind of question first.';
  return cards > 0 ? null : 'The chart has no question of these kinds there. Choose more of them.';
}
