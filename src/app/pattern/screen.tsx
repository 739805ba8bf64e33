import './pattern.css';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { lineIdOf } from '../../cards/index.ts';
import {
  type Decimal,
  formatDecimal,
  isolated,
  lineFrom,
  type PatternId,
  patternOf,
  remarkOn,
  type Sheet,
  type SheetLine,
} from '../../charts/index.ts';
import { speedWords } from '../../quiz/index.ts';
import { toleranceOf } from '../../store/index.ts';
import { fileNameOf } from '../device/file-name.ts';
import { flaggedStarts, playFlag } from '../parts/flags.ts';
import { missingSentences } from '../parts/missing.ts';
import { SaveFigure } from '../parts/save-figure.tsx';
import { Problem } from '../parts/saving.tsx';
import type { AppPorts } from '../ports.ts';
import { formatScreen } from '../router.ts';
import type { Model } from '../state/model.ts';
import { type SolvedSheet, workbenchIn } from '../state/workbench.ts';
import { Anchors } from './anchors.tsx';
import { ComparePanel } from './compare-panel.tsx';
import { LineSheet } from './line.tsx';
import { LineFigure } from './line-figure.tsx';
import { LineMarks } from './line-marks.tsx';
import { NumberTable } from './numbers.tsx';
import { SourceLegend } from './source-mark.tsx';
import { StrokePanel } from './stroke-panel.tsx';
import { TablePanel } from './table-panel.tsx';

interface PatternProps extends Pick<AppPorts, 'model' | 'workspace' | 'solver' | 'files'> {
  readonly pattern: PatternId;
  /** The start of the line that is chosen at first; null means the middle line. */
  readonly start: Decimal | null;
}

/** Shows the numbers of a pattern on the chart's table, or on a table that the player tries. */
export function PatternScreen(props: PatternProps) {
  const { model, workspace, solver, files, pattern: id, start } = props;
  const bench = workbenchIn(workspace, solver, model.chart.peek());
  const chart = model.chart.value;
  const settings = model.settings.value;
  const pattern = patternOf(id);
  useEffect(() => bench.show(chart, id, toleranceOf(settings)), [chart, id, settings.tolerance]);
  const worked = bench.here.value;
  const problem = bench.problem.value;
  return (
    <main class="page pattern-page">
      <Links id={id} />
      <h1>{pattern.name}</h1>
      <p class="lead">{pattern.path}</p>
      <Problem say={problem} />
      <p class={bench.changed.value ? 'whose trying' : 'whose'} role="status">
        {bench.changed.value
          ? 'Trying a table out: these are not your chart’s numbers.'
          : `The numbers of ${isolated(chart.document.name)}.`}
      </p>
      <div class="pattern-body">
        {worked?.pattern === id ? (
          <Sheets
            worked={worked}
            model={model}
            files={files}
            start={start}
            trying={bench.changed.value}
            key={start}
          />
        ) : (
          <p class="working" role="status">
            Working the numbers out
          </p>
        )}
        <div class="panels">
          <TablePanel bench={bench} units={settings.units} />
          <StrokePanel bench={bench} units={settings.units} pattern={pattern} />
          <ComparePanel bench={bench} model={model} />
        </div>
      </div>
    </main>
  );
}

function Links({ id }: { readonly id: PatternId }) {
  return (
    <p class="links">
      <a class="back" href="#/charts">
        Charts
      </a>
      <a class="back" href={formatScreen({ name: 'edit', pattern: id })}>
        Edit
      </a>
      <a class="back" href={formatScreen({ name: 'print', pattern: id })}>
        Print
      </a>
    </p>
  );
}

function Sheets(props: {
  readonly worked: SolvedSheet;
  readonly model: Model;
  readonly files: AppPorts['files'];
  readonly start: Decimal | null;
  /**
   * Whether the player tries another table. No flag is drawn then, because flags belong to the
   * chart's table.
   */
  readonly trying: boolean;
}) {
  const { worked, model } = props;
  const { sheet, request, pattern } = worked;
  const [chosen, choose] = useState(() => placeOf(sheet, props.start) ?? middleOf(sheet));
  const line = sheet.lines[chosen] ?? sheet.lines[0];
  const { own, played } = useMarks(model, pattern, line?.start ?? null);
  if (!line) return null;
  const flagged = flaggedStarts(model.chart.value, pattern, model.log.value);
  return (
    <>
      <LineFigure worked={worked} line={line} played={props.trying ? null : played} />
      <div class="numbers">
        <NumberTable worked={worked} chosen={chosen} choose={choose} flagged={flagged} />
        <SourceLegend lines={sheet.lines} />
        <Missing lines={sheet.lines} />
        <Conventions worked={worked} model={model} />
        <LineSheet
          worked={worked}
          line={line}
          units={model.settings.value.units}
          remark={remarkOn(model.chart.value.state, { pattern, start: line.start })}
        />
        <SaveFigure files={props.files} name={fileNameOf(pattern, formatDecimal(line.start))} />
        {own && <LineMarks model={model} line={own} played={played} key={line.start} />}
        <Anchors sheet={sheet} printStep={request.printStep} bound={request.anchorBound} />
      </div>
    </>
  );
}

/** Returns the chart's line from a start, and what its flagged number does when played. */
function useMarks(
  model: Pick<Model, 'chart' | 'settings' | 'log'>,
  pattern: PatternId,
  start: Decimal | null,
) {
  const chart = model.chart.value;
  const { units } = model.settings.value;
  const own = start === null ? null : lineFrom(chart, pattern, start);
  const flag = own ? model.log.value.flags.get(lineIdOf(chart, own)) : undefined;
  const played = useMemo(
    () => (own && flag ? playFlag(chart, own, flag, units) : null),
    [chart, own, flag, units],
  );
  return { own, played };
}

/** Returns the index of the line from a start; null if there is none. */
function placeOf({ lines }: Sheet, start: Decimal | null): number | null {
  const place = lines.findIndex((line) => line.start === start);
  return place < 0 ? null : place;
}

/** Returns the index of the middle line among those that have all numbers. */
function middleOf({ entries, lines }: Sheet): number {
  return entries[Math.floor(entries.length / 2)] ?? Math.floor(lines.length / 2);
}

/** Says why some starts have no number, in one sentence for each reason. */
function Missing({ lines }: { readonly lines: readonly SheetLine[] }) {
  return missingSentences(lines).map((say) => (
    <p key={say} class="soft-words">
      {say}
    </p>
  ));
}

function Conventions({
  worked,
  model,
}: {
  readonly worked: SolvedSheet;
  readonly model: Pick<Model, 'settings'>;
}) {
  const { start, aim } = patternOf(worked.pattern);
  const { units } = model.settings.value;
  const { speeds } = worked.request.setting.condition;
  const names =
    worked.request.naming === 'through'
      ? 'Aim through the sight'
      : 'Aim at the point of the nose with this number';
  return (
    <p class="soft-words">
      {names}, counted from the {aim.from}; starts are counted from the {start.from}. Soft is{' '}
      {speedWords(speeds.soft, units)}, medium {speedWords(speeds.medium, units)}, firm{' '}
      {speedWords(speeds.firm, units)}. A dotted number misses the pocket as printed: choose its
      line for what drops. Numbers are aids: check them on your table.
    </p>
  );
}
