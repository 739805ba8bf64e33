import type { Pattern } from '../../charts/index.ts';
import { speedWords, type Units } from '../../quiz/index.ts';
import {
  CONDITIONS,
  type Condition,
  type ConditionName,
  divisions,
  POCKET_SIZES,
  type PocketSize,
  SPEEDS,
  type Speed,
  TABLES,
  type TableSize,
} from '../../table/index.ts';
import type { Workbench } from '../state/workbench.ts';
import { Choice, Slider } from './controls.tsx';

export const TABLE_NAMES: Readonly<Record<TableSize, string>> = {
  '9ft': '9 ft',
  pro8ft: '8 ft pro',
  csi8ft: '8 ft league',
  '8ft': '8 ft',
  '7ft': '7 ft',
};

const POCKET_NAMES: Readonly<Record<PocketSize, string>> = {
  tight: 'tight pockets',
  standard: 'standard pockets',
  generous: 'generous pockets',
};

const SIZES = Object.keys(TABLES) as TableSize[];
const CONDITION_NAMES = Object.keys(CONDITIONS) as ConditionName[];

type Property = Exclude<keyof Condition, 'speeds' | 'spinDecay'>;

/** Within the limits of a chart's condition (charts/schema.ts). */
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

/** Soft, medium and firm keep this far apart, m/s. */
const SPEED_GAP = 0.1;
const SPEED_STEP = 0.05;

interface PanelProps {
  readonly bench: Workbench;
  readonly units: Units;
}

/** The table that is tried: its size, pockets, cushions, cloth and speeds. */
export function TablePanel({ bench, units }: PanelProps) {
  const { table, pockets, condition } = bench.tried.value;
  const setCondition = (part: Partial<Condition>) =>
    bench.change({ condition: { ...condition, ...part } });
  return (
    <section class="sheet panel" aria-label="Table condition">
      <h2>Table</h2>
      <Choice
        label="Size"
        value={table}
        options={SIZES.map((size) => [size, TABLE_NAMES[size]])}
        onChoose={(size) => bench.change({ table: size })}
      />
      <Choice
        label="Pockets"
        value={pockets}
        options={(Object.keys(POCKET_SIZES) as PocketSize[]).map((size) => [
          size,
          POCKET_NAMES[size],
        ])}
        onChoose={(size) => bench.change({ pockets: size })}
      />
      <ConditionSliders condition={condition} units={units} set={setCondition} />
      <button type="button" class="key" disabled={!bench.changed.value} onClick={bench.reset}>
        Back to the chart’s table
      </button>
    </section>
  );
}

/** Cushions, cloth and speeds of a table. */
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

/** The preset a condition is, whatever its speeds; null if it is none. */
function presetOf(condition: Condition): ConditionName | null {
  const same = (name: ConditionName) =>
    SLIDERS.every(({ of }) => CONDITIONS[name][of] === condition[of]);
  return CONDITION_NAMES.find(same) ?? null;
}

/** One speed set, and the others moved on where they would no longer be in order. */
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

/** How the line is struck and what it is meant for. */
export function StrokePanel({ bench, pattern }: PanelProps & { readonly pattern: Pattern }) {
  const { stroke, target } = bench.tried.value;
  const { follow = 0, running = 0, along = 0 } = stroke;
  const set = (part: Partial<typeof stroke>) => bench.change({ stroke: { ...stroke, ...part } });
  const { rail } = pattern.kicks;
  const most = divisions(rail);
  return (
    <section class="sheet panel" aria-label="Target and stroke">
      <h2>Target and stroke</h2>
      <Choice
        label="Target"
        value={target === 'pocket' ? 'pocket' : 'rail'}
        options={[
          ['pocket', 'the pocket'],
          ['rail', `a ball on the ${rail} rail`],
        ]}
        onChoose={(kind) => bench.change({ target: kind === 'pocket' ? 'pocket' : most / 4 })}
      />
      {target !== 'pocket' && (
        <Slider
          label={`Ball on the ${rail} rail, from the ${pattern.kicks.from}`}
          value={target}
          min={0.5}
          max={most - 0.5}
          step={0.1}
          words={target.toFixed(1)}
          onSlide={(diamond) => bench.change({ target: diamond })}
        />
      )}
      <Slider
        label="Ball lies along the line"
        value={along}
        min={0}
        max={0.9}
        step={0.05}
        words={along === 0 ? 'at the start rail' : `${Math.round(along * 100)} % of the way`}
        onSlide={(value) => set({ along: value })}
      />
      <Slider
        label="Height of the hit"
        value={follow}
        min={-0.5}
        max={0.5}
        step={0.05}
        words={offsetWords(follow, 'follow', 'draw')}
        onSlide={(value) => set({ follow: value })}
      />
      <Slider
        label="Side"
        value={running}
        min={-0.5}
        max={0.5}
        step={0.05}
        words={offsetWords(running, 'running', 'reverse')}
        onSlide={(value) => set({ running: value })}
      />
    </section>
  );
}

/** An offset of the tip, in hundredths of the ball's radius. */
function offsetWords(offset: number, plus: string, minus: string): string {
  if (offset === 0) return 'centre';
  return `${Math.round(Math.abs(offset) * 100)} % ${offset > 0 ? plus : minus}`;
}
