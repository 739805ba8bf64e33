import { useState } from 'preact/hooks';
import {
  type Chart,
  type ChartDocument,
  isolated,
  type Level,
  levelOf,
} from '../../charts/index.ts';
import { notSaved } from '../../quiz/index.ts';
import type { ChartUse } from '../../scheduler/index.ts';
import { Choice } from '../parts/controls.tsx';
import { Problem, useSaving } from '../parts/saving.tsx';
import type { Model } from '../state/model.ts';

export type UsedModel = Pick<Model, 'chart' | 'charts' | 'use' | 'log' | 'useChart'>;

/**
 * Lets the player choose the level to be asked, and the chart with which this one shares its
 * memory.
 */
export function ChartUseSheet({ model }: { readonly model: UsedModel }) {
  const chart = model.chart.value;
  const use = model.use.value;
  const { problem, save } = useSaving();
  const others = chartsToShareWith(model);
  const { levels } = chart.state;
  if (others.length === 0 && !levels) return null;
  const change = (part: Partial<ChartUse>): void => {
    save(model.useChart(chart.document.id, { ...use, ...part }));
  };
  return (
    <section class="sheet chart-use" aria-labelledby="chart-use-title">
      <h2 id="chart-use-title">How you use it</h2>
      {levels && (
        <Choice<Level | null>
          label="Level"
          note={askedWords(chart, use.level)}
          value={use.level}
          options={[
            [null, 'all lines'],
            ...levels.names.map((name, n) => [n as Level, name] as const),
          ]}
          onChoose={(level) => change({ level })}
        />
      )}
      {others.length > 0 && (
        <Choice<string | null>
          label="Memory"
          note={sharingWords(chart)}
          value={use.shares}
          options={[
            [null, 'its own'],
            ...others.map(({ id, name }) => [id, `shared with ${isolated(name)}`] as const),
          ]}
          onChoose={(shares) => change({ shares })}
        />
      )}
      <Problem say={problem} />
    </section>
  );
}

/**
 * Returns the charts whose memory this chart can share. Many charts can share one chart's memory,
 * but that chart has to have a memory of its own.
 */
function chartsToShareWith({ chart, charts, log }: UsedModel): readonly ChartDocument[] {
  const { id: own } = chart.value.document;
  const others = charts.value.filter(({ id }) => id !== own);
  const sharedBy = (id: string) => log.value.uses.get(id)?.shares ?? null;
  const isShared = others.some(({ id }) => sharedBy(id) === own);
  return isShared ? [] : others.filter(({ id }) => sharedBy(id) === null);
}

export function askedWords({ state, lines }: Chart, level: Level | null): string {
  if (level === null) return 'The chart says who should hold which lines; you learn them all.';
  // A level may list lines that the chart no longer has.
  const held = lines.filter((line) => {
    const own = levelOf(state, line);
    return own !== null && own <= level;
  }).length;
  return `${held} of ${lines.length} lines are asked. What you know of the others is kept.`;
}

function sharingWords({ shared, lines }: Chart): string {
  if (!shared)
    return 'What you learn on another table does not count here. If you separate them later, each keeps what you knew.';
  const alike = shared.lines.size;
  return `${alike} of ${lines.length} lines have a number within 0.1 of the other table’s, at every speed: known there, known here. Of the other ${lines.length - alike}, what you know there with another number comes back to be learned for this table.`;
}

/** Removes the chart in use from the device, after asking a second time. */
export function RemoveChart(props: {
  readonly model: Pick<Model, 'chart' | 'charts' | 'removeChart'>;
}) {
  const { model } = props;
  const { id, name } = model.chart.value.document;
  const [asked, setAsked] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  if (model.charts.value.length < 2) return null;
  const remove = (): void => {
    setAsked(false);
    model.removeChart(id).then(
      (removed) => setProblem(removed.ok ? null : removed.say),
      (error: unknown) => setProblem(notSaved(error)),
    );
  };
  return (
    <section class="remove-chart">
      {asked ? (
        <p>
          Remove “{isolated(name)}” from this device? What you remember of its lines is kept, and
          counts again if the chart comes back.{' '}
          <button type="button" class="key quiet" onClick={remove}>
            Remove it
          </button>{' '}
          <button type="button" class="key quiet" onClick={() => setAsked(false)}>
            Keep it
          </button>
        </p>
      ) : (
        <button type="button" class="plain" onClick={() => setAsked(true)}>
          Remove this chart from the device
        </button>
      )}
      <Problem say={problem} />
    </section>
  );
}
