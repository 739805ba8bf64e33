import { speedWords, type Units } from '../../quiz/index.ts';
import {
  CONDITIONS,
  type Condition,
  type ConditionName,
  SPEEDS,
  type Speed,
} from '../../table/index.ts';
import { Choice } from './controls.tsx';
import { Slider } from './slider.tsx';

const CONDITION_NAMES = Object.keys(CONDITIONS) as ConditionName[];

type Property = Exclude<keyof Condition, 'speeds' | 'spinDecay'>;

/**
 * The range of each slider, within the limits of a chart's condition
 * (src/charts/document/condition-schema.ts).
 */
const SLIDERS: readonly {
  readonly of: Property;
  readonly label: string;
  readonly min: number;
  readonly max: number;
  readonly step: number;
}[] = [
  { of: 'restitution', label: 'Cushion liveliness', min: 0.6, max: 0.98, step: 0.01 },
  { of: 'noseFriction', label: 'Cushion grip', min: 0, max: 0.25, step: 0.01 },
  { of: 'slideFriction', label: 'Cloth grip', min: 0.05, max: 0.4, step: 0.01 },
  { of: 'rollFriction', label: 'Cloth drag', min: 0.002, max: 0.03, step: 0.001 },
];

/** The minimum difference between soft and medium speed, and between medium and firm, in m/s. */
const SPEED_GAP = 0.1;
const SPEED_STEP = 0.05;

/** Sliders for the cushions, the cloth and the speeds of a table. */
export function ConditionSliders(props: {
  readonly condition: Condition;
  readonly units: Units;
  readonly set: (part: Partial<Condition>) => void;
}) {
  const { condition, units, set } = props;
  return (
    <>
      <Choice
        label="Condition"
        value={presetOf(condition)}
        options={[
          ...CONDITION_NAMES.map((name) => [name, name] as const),
          ...(presetOf(condition) === null ? ([[null, 'as set below']] as const) : []),
        ]}
        onChoose={(name) => name && set({ ...CONDITIONS[name], speeds: condition.speeds })}
      />
      {SLIDERS.map(({ of, label, min, max, step }) => (
        <Slider
          key={of}
          label={label}
          value={condition[of]}
          min={min}
          max={max}
          step={step}
          words={condition[of].toFixed(step < 0.01 ? 3 : 2)}
          onSlide={(value) => set({ [of]: value })}
        />
      ))}
      {SPEEDS.map((speed) => (
        <Slider
          key={speed}
          label={`${speed} speed`}
          value={condition.speeds[speed]}
          min={0.8}
          max={7}
          step={SPEED_STEP}
          words={speedWords(condition.speeds[speed], units)}
          onSlide={(value) => set({ speeds: withSpeed(condition.speeds, speed, value) })}
        />
      ))}
    </>
  );
}

/** Returns the preset that a condition matches in all but its speeds; null if it matches none. */
function presetOf(condition: Condition): ConditionName | null {
  const same = (name: ConditionName) =>
    SLIDERS.every(({ of }) => CONDITIONS[name][of] === condition[of]);
  return CONDITION_NAMES.find(same) ?? null;
}

/** Sets one speed, and moves the others if they would otherwise be out of order. */
export function withSpeed(
  speeds: Condition['speeds'],
  changed: Speed,
  value: number,
): Condition['speeds'] {
  const place = SPEEDS.indexOf(changed);
  const kept = SPEEDS.map((speed, n) => {
    const gap = SPEED_GAP * Math.abs(n - place);
    if (n < place) return Math.min(speeds[speed], value - gap);
    return n > place ? Math.max(speeds[speed], value + gap) : value;
  });
  const [soft = value, medium = value, firm = value] = kept;
  return { soft, medium, firm };
}
