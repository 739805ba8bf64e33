import type { Model } from '../state/model.ts';
import { Choice } from './controls.tsx';
import { Problem, useSaving } from './saving.tsx';

/** Lets the player choose the chart in use. Shows nothing if there is only one chart. */
export function ChartChoice({
  model,
}: {
  readonly model: Pick<Model, 'chart' | 'charts' | 'chooseChart'>;
}) {
  const charts = model.charts.value;
  const { problem, save } = useSaving();
  if (charts.length < 2) return null;
  const choose = (id: string): void => {
    save(model.chooseChart(id));
  };
  return (
    <div class="chart-choice">
      <Choice
        label="Chart"
        value={model.chart.value.document.id}
        options={charts.map(({ id, name }) => [id, name])}
        onChoose={choose}
      />
      <Problem say={problem} />
    </div>
  );
}
