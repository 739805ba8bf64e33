import { formatDecimal } from '../../charts/index.ts';
import { toleranceOf } from '../../store/index.ts';
import { TABLES, type TableSize } from '../../table/index.ts';
import { Choice } from '../parts/controls.tsx';
import { TABLE_NAMES } from '../parts/table-names.ts';
import type { Model } from '../state/model.ts';
import type { Workbench } from '../state/workbench.ts';
import { ComparedTable, movedLines } from './numbers.tsx';

/** Compares the numbers with the numbers of a table of a different size. */
export function ComparePanel({
  bench,
  model,
}: {
  readonly bench: Workbench;
  readonly model: Pick<Model, 'settings'>;
}) {
  const { table, against } = bench.tried.value;
  const here = bench.here.value;
  const there = bench.there.value;
  const tolerance = toleranceOf(model.settings.value);
  const others = (Object.keys(TABLES) as TableSize[]).filter((size) => size !== table);
  return (
    <section class="sheet panel" aria-label="Compare">
      <h2>When I travel</h2>
      <Choice
        label="Compare with"
        value={against}
        options={[
          [null, 'no other table'],
          ...others.map((size) => [size, TABLE_NAMES[size]] as const),
        ]}
        onChoose={(size) => bench.change({ against: size })}
      />
      {against && here && there && (
        <>
          <p role="status">
            From {TABLE_NAMES[table]} to {TABLE_NAMES[against]} {movedLines(here, there, tolerance)}{' '}
            of {there.sheet.lines.length} lines move by more than {formatDecimal(tolerance)}.
          </p>
          {here.request.given?.length ? (
            <p class="soft-words">
              Your measured numbers stand beside computed ones of the other table.
            </p>
          ) : null}
          <ComparedTable here={here} there={there} tolerance={tolerance} />
        </>
      )}
    </section>
  );
}
