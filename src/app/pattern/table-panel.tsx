import type { Units } from '../../quiz/index.ts';
import {
  type Condition,
  POCKET_SIZES,
  type PocketSize,
  TABLES,
  type TableSize,
} from '../../table/index.ts';
import { ConditionSliders } from '../parts/condition-sliders.tsx';
import { Choice } from '../parts/controls.tsx';
import { TABLE_NAMES } from '../parts/table-names.ts';
import type { Workbench } from '../state/workbench.ts';

const POCKET_NAMES: Readonly<Record<PocketSize, string>> = {
  tight: 'tight pockets',
  standard: 'standard pockets',
  generous: 'generous pockets',
};

const SIZES = Object.keys(TABLES) as TableSize[];
const POCKETS = Object.keys(POCKET_SIZES) as PocketSize[];

export interface PanelProps {
  readonly bench: Workbench;
  readonly units: Units;
}

/** Changes the table that the player tries: its size, pockets, cushions, cloth and speeds. */
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
        options={POCKETS.map((size) => [size, POCKET_NAMES[size]])}
        onChoose={(size) => bench.change({ pockets: size })}
      />
      <ConditionSliders condition={condition} units={units} set={setCondition} />
      <button type="button" class="key" disabled={!bench.changed.value} onClick={bench.reset}>
        Back to the chart’s table
      </button>
    </section>
  );
}
