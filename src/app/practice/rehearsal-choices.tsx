import { KINDS } from '../../cards/index.ts';
import { type PatternId, patternOf } from '../../charts/index.ts';
import { KIND_NAMES, KIND_NOTES, useOf } from '../../quiz/index.ts';
import type { RehearsalSpec } from '../../scheduler/index.ts';
import { USES, type Use } from '../../store/index.ts';
import { Problem, useSaving } from '../parts/saving.tsx';
import type { Model } from '../state/model.ts';
export interface PartProps {
  readonly spec: RehearsalSpec;
  readonly change: (part: Partial<RehearsalSpec>) => void;
}

const CUSHIONS = [
  [1, 'One cushion'],
  [2, 'Two cushions'],
  [3, 'Three cushions'],
] as const;

/**
 * Lets the player choose patterns, and say how often each comes up. Patterns are grouped by how
 * many cushions they have.
 */
export function PatternsSheet({
  model,
  spec,
  change,
}: PartProps & {
  readonly model: Pick<Model, 'chart' | 'settings' | 'changeSettings'>;
}) {
  const { problem, save } = useSaving();
  const { patterns } = model.chart.value;
  const { use } = model.settings.value;
  const setUse = (pattern: PatternId, how: Use): void => {
    save(model.changeSettings((now) => ({ use: { ...now.use, [pattern]: how } })));
  };
  const toggle = (pattern: PatternId): void =>
    change({
      patterns: patterns.filter((one) => spec.patterns.includes(one) !== (one === pattern)),
    });
  return (
    <section class="sheet rehearsal-patterns">
      <div class="rehearsal-head">
        <h2>Patterns</h2>
        <button type="button" class="plain" onClick={() => change({ patterns })}>
          All
        </button>
        <button type="button" class="plain" onClick={() => change({ patterns: [] })}>
          None
        </button>
      </div>
      <p class="soft-words">The more often one comes up for you, the more often it is asked.</p>
      <Problem say={problem} />
      {CUSHIONS.map(([cushions, label]) => (
        <PatternGroup
          key={label}
          label={label}
          patterns={patterns.filter((id) => patternOf(id).cushions.length === cushions)}
          chosen={spec.patterns}
          useFor={(pattern) => useOf(use, pattern)}
          toggle={toggle}
          setUse={setUse}
        />
      ))}
    </section>
  );
}

function PatternGroup(props: {
  readonly label: string;
  readonly patterns: readonly PatternId[];
  readonly chosen: readonly string[];
  readonly useFor: (pattern: PatternId) => Use;
  readonly toggle: (pattern: PatternId) => void;
  readonly setUse: (pattern: PatternId, use: Use) => void;
}) {
  if (props.patterns.length === 0) return null;
  return (
    <fieldset class="picks-list">
      <legend>{props.label}</legend>
      {props.patterns.map((pattern) => {
        const { name } = patternOf(pattern);
        return (
          <div class="pick-row" key={pattern}>
            <label class="check">
              <input
                type="checkbox"
                checked={props.chosen.includes(pattern)}
                onChange={() => props.toggle(pattern)}
              />
              <span>{name}</span>
            </label>
            <select
              aria-label={`How often ${name} comes up`}
              value={props.useFor(pattern)}
              onChange={({ currentTarget }) => props.setUse(pattern, currentTarget.value as Use)}
            >
              {USES.map((use) => (
                <option key={use} value={use}>
                  {use}
                </option>
              ))}
            </select>
          </div>
        );
      })}
    </fieldset>
  );
}

export function KindsSheet({ spec, change }: PartProps) {
  return (
    <section class="sheet">
      <fieldset class="picks-list">
        <legend class="as-heading">Kinds</legend>
        {KINDS.map((kind) => (
          <label class="check" key={kind}>
            <input
              type="checkbox"
              checked={spec.kinds.includes(kind)}
              onChange={() =>
                change({
                  kinds: KINDS.filter((one) => spec.kinds.includes(one) !== (one === kind)),
                })
              }
            />
            <span>
              {KIND_NAMES[kind]}
              <span class="soft-words">{KIND_NOTES[kind]}</span>
            </span>
          </label>
        ))}
      </fieldset>
    </section>
  );
}
