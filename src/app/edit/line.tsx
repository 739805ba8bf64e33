import { useEffect, useMemo, useRef } from 'preact/hooks';
import {
  type EditorRow,
  formatDecimal,
  type PatternId,
  PRIORITIES,
  type Priority,
  priorityOf,
  remarkOn,
  setPriority,
  setRemark,
  toNumber,
} from '../../charts/index.ts';
import { TableFigure } from '../../figure/index.ts';
import { type FigureParts, linesFigure, playRoute, SpeedLegend } from '../../quiz/index.ts';
import { nameAim, SPEEDS } from '../../table/index.ts';
import { Choice } from '../parts/controls.tsx';
import { missingWords } from '../parts/missing.ts';
import { PRINTED } from '../parts/shot.ts';
import type { Editing } from '../state/editing/editing.ts';
import type { Model } from '../state/model.ts';
import { type Named, showAim } from './typed-number.ts';

interface LineProps {
  readonly model: Pick<Model, 'chart'>;
  readonly editing: Editing;
  readonly pattern: PatternId;
  readonly row: EditorRow;
  readonly named: Named;
  /**
   * How many times the player has asked to see the line. Each time, the panel takes the focus and
   * scrolls into view.
   */
  readonly asked: number;
}

/**
 * Shows the line of the row being edited: its paths at three speeds, its priority and its remark.
 */
export function EditorLine(props: LineProps) {
  const { editing, pattern, row } = props;
  const { now } = editing.draft.value;
  const place = { pattern, start: row.start };
  const own = now.priorities.find(
    (one) => one.pattern === pattern && one.start === row.start,
  )?.priority;
  const start = formatDecimal(row.start);
  const head = useShown(props.asked);
  return (
    <section class="editor-line" aria-labelledby="editor-line-title">
      <h2 id="editor-line-title" tabIndex={-1} ref={head}>
        The line from {start}
      </h2>
      {row.missing && (
        <p class="problem">
          Not a line of the chart yet: it has no number at {row.missing.speed} speed, and none can
          be worked out ({missingWords(row.missing.why)}). Type that one, too.
        </p>
      )}
      <LineDrawn {...props} />
      <Choice<Priority | null>
        label="Learn it"
        value={own ?? null}
        options={[
          [null, `as the pattern: ${priorityOf(now, { pattern, start: null })}`],
          ...PRIORITIES.map((one) => [one, one] as const),
        ]}
        onChoose={(one) => editing.edit((state) => setPriority(state, place, one))}
      />
      <label class="remark">
        <span>Remark, for all who read the chart</span>
        <textarea
          maxLength={200}
          rows={2}
          value={remarkOn(now, place) ?? ''}
          onInput={(event) => {
            const { value } = event.currentTarget;
            editing.edit((state) => setRemark(state, place, value), `remark ${row.start}`);
          }}
          onBlur={editing.endRun}
        />
      </label>
      <PatternPriority editing={editing} pattern={pattern} />
    </section>
  );
}

/**
 * Focuses the panel and brings it into view, because on a phone it is out of view below the table.
 */
function useShown(asked: number) {
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (asked === 0) return;
    head.current?.focus({ preventScroll: true });
    const { top = 0 } = head.current?.getBoundingClientRect() ?? {};
    // Does not scroll if the panel is in view beside the table.
    if (top < 0 || top > innerHeight / 2) head.current?.scrollIntoView({ block: 'start' });
  }, [asked]);
  return head;
}

function PatternPriority({ editing, pattern }: Pick<LineProps, 'editing' | 'pattern'>) {
  const { priorities } = editing.draft.value.now;
  const own = priorities.find((one) => one.pattern === pattern && one.start === null)?.priority;
  return (
    <Choice<Priority>
      label="Learn the whole pattern"
      note="Where a line does not say otherwise."
      value={own ?? 'in turn'}
      options={PRIORITIES.map((one) => [one, one] as const)}
      onChoose={(one) =>
        editing.edit((state) =>
          setPriority(state, { pattern, start: null }, one === 'in turn' ? null : one),
        )
      }
    />
  );
}

function LineDrawn(props: LineProps) {
  const { row, named } = props;
  const parts = usePaths(props);
  const { start, aim, target } = named.pattern;
  return (
    <div class="pattern-figure">
      <TableFigure
        frame={{ table: named.table, mirror: PRINTED }}
        label={`The line from ${formatDecimal(row.start)} at soft, medium and firm speed`}
        counts={[start, aim]}
        target={target}
        {...parts}
      />
      <SpeedLegend />
    </div>
  );
}

/** Returns the ball's paths for the typed numbers. Empty cells use the chart's numbers. */
function usePaths({ model, editing, pattern, row, named }: LineProps): FigureParts {
  const { condition } = editing.draft.value.now;
  const aims = SPEEDS.map((speed) => {
    const { own, filled } = row.cells[speed];
    return own === null ? (filled?.aim ?? null) : toNumber(own);
  });
  return useMemo(() => {
    const chart = { ...model.chart.peek(), setting: { table: named.table, condition } };
    const at = { pattern, start: row.start };
    const called = SPEEDS.map((speed, n) => {
      const aim = aims[n] ?? null;
      if (aim === null) return [speed, null] as const;
      const exact = nameAim(named.table, named.pattern, toNumber(row.start), aim, named.naming);
      // Plays the number by the model alone, without a measured shift, because the typed number is
      // compared with the model.
      const { stretches } = playRoute(chart, named.pattern, row.start, exact, speed);
      return [speed, { named: exact, label: showAim(aim, row.start, named), stretches }] as const;
    });
    return linesFigure(chart, at, Object.fromEntries(called));
  }, [condition, pattern, row.start, named.naming, aims.join()]);
}
