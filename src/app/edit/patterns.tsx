import {
  PATTERNS,
  type PatternId,
  patternOf,
  setCondition,
  setPattern,
} from '../../charts/index.ts';
import { ConditionSliders } from '../parts/condition-sliders.tsx';
import { ManyOf } from '../parts/many-of.tsx';
import type { Editing } from '../state/editing/editing.ts';
import type { Model } from '../state/model.ts';

const ALL: readonly PatternId[] = PATTERNS.map(({ id }) => id);

/** The chart's patterns, and how its table plays. */
export function EditorPatterns(props: {
  readonly model: Pick<Model, 'settings'>;
  readonly editing: Editing;
}) {
  const { model, editing } = props;
  const { now } = editing.draft.value;
  const { basis } = editing.document.value;
  const choose = (chosen: readonly PatternId[]): void =>
    editing.edit((state) =>
      ALL.reduce((one, id) => setPattern(one, id, chosen.includes(id)), state),
    );
  return (
    <details class="uses sheet" open={now.patterns.length === 0}>
      <summary>Patterns and table</summary>
      <ManyOf
        legend="Patterns of this chart"
        all={ALL}
        chosen={now.patterns}
        words={(id) => patternOf(id).name}
        onChoose={choose}
      />
      <p class="soft-words">
        A pattern that leaves keeps its numbers, and has them again when it comes back.
      </p>
      <p class="soft-words">
        {basis === 'computed'
          ? 'How the table plays: every number that is not typed follows it.'
          : 'How the table plays, for what is worked out: what drops, and what lies between speeds.'}
      </p>
      <ConditionSliders
        condition={now.condition}
        units={model.settings.value.units}
        set={(part) =>
          editing.edit((state) => setCondition(state, part), Object.keys(part).join(' '))
        }
      />
    </details>
  );
}
