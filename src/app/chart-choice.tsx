import { useState } from 'preact/hooks';
import { notSaved } from '../quiz/index.ts';
import { Choice } from './controls.tsx';
import type { Model } from './model.ts';

/** Which of the charts on the device is in use: two taps. Nothing where there is only one. */
export function ChartChoice({ model }: { readonly model: Model }) {
  const charts = model.charts.value;
  const [problem, setProblem] = useState<string | null>(null);
  if (charts.length < 2) return null;
  const choose = (id: string): void => {
    model.chooseChart(id).then(
      () => setProblem(null),
      (error: unknown) => setProblem(notSaved(error)),
    );
  };
  return (
    <div class="chart-choice">
      <Choice
        label="Chart"
        value={model.chart.value.document.id}
        options={charts.map(({ id, name }) => [id, name])}
        onChoose={choose}
      />
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}
