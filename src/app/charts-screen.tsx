import { useMemo } from 'preact/hooks';
import { anchorBound, anchorsOf, type Chart, type PatternId, patternOf } from '../charts/index.ts';
import { TableFigure } from '../figure/index.ts';
import { lineAtSpeeds } from '../quiz/index.ts';
import { toleranceOf } from '../store/index.ts';
import { MIRRORS, type Mirror, type Naming } from '../table/index.ts';
import { SetAsideSheet } from './charts-aside.tsx';
import { FlagMark } from './flag-mark.tsx';
import { flaggedStarts } from './flags.ts';
import type { Model } from './model.ts';
import { Page } from './page.tsx';
import { formatScreen } from './router.ts';

/** How many anchors each pattern of the chart has. */
function anchorCounts(chart: Chart, bound: number): ReadonlyMap<PatternId, number> {
  return new Map(
    chart.patterns.map((id) => {
      const lines = chart.lines.filter((line) => line.pattern === id);
      return [id, anchorsOf(lines, bound).chosen.length];
    }),
  );
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`;
}

function sum(counts: ReadonlyMap<PatternId, number>): number {
  return [...counts.values()].reduce((total, count) => total + count, 0);
}

function Flagged({ count }: { readonly count: number }) {
  if (count === 0) return null;
  return (
    <span class="flagged">
      <FlagMark /> {counted(count, 'line')} flagged
    </span>
  );
}

const AIM_WORDS: Readonly<Record<Naming, string>> = {
  through: 'Aim through the sight.',
  opposite: 'A number is the point of the nose the line crosses.',
};

export function ChartsScreen({ model }: { readonly model: Model }) {
  const chart = model.chart.value;
  const { document } = chart;
  const log = model.log.value;
  const bound = anchorBound(toleranceOf(model.settings.value));
  const anchors = useMemo(() => anchorCounts(chart, bound), [chart, bound]);
  return (
    <Page title="Charts">
      <section class="sheet chart-head">
        <h2>{document.name}</h2>
        <p class="total">
          Remember <strong>{sum(anchors)}</strong> numbers instead of {chart.lines.length}: the
          anchors of each pattern, and proportion between them.
        </p>
        <p class="soft-words">
          {chart.lines.length} lines, computed for this table. {AIM_WORDS[chart.naming]}
        </p>
        <ol class="revisions">
          {[...document.revisions].reverse().map((revision) => (
            <li key={revision.number}>
              <span class="number">Revision {revision.number}</span>
              <time dateTime={revision.date}>{revision.date}</time>
              <span>
                {revision.why} <span class="soft-words">{revision.author}</span>
              </span>
            </li>
          ))}
        </ol>
      </section>
      <SetAsideSheet model={model} />
      <ul class="pattern-list">
        {chart.patterns.map((id) => {
          const pattern = patternOf(id);
          const lines = chart.lines.filter((line) => line.pattern === id);
          const middle = lines[Math.floor(lines.length / 2)];
          const parts = middle && lineAtSpeeds(chart, middle);
          return (
            <li key={id}>
              <a href={formatScreen({ name: 'pattern', pattern: id, start: null })}>
                <TableFigure
                  frame={{ table: chart.setting.table, mirror: MIRRORS[0] as Mirror }}
                  label={`${pattern.name}, one of its lines`}
                  counts={[]}
                  paths={parts?.paths.filter((path) => path.tone === 'medium') ?? []}
                  target={pattern.target}
                />
                <span class="pattern-words">
                  <strong>{pattern.name}</strong>
                  <span>{pattern.path}</span>
                  <span class="soft-words">
                    {counted(lines.length, 'line')}, {counted(anchors.get(id) ?? 0, 'anchor')}
                  </span>
                  <Flagged count={flaggedStarts(chart, id, log).size} />
                </span>
              </a>
            </li>
          );
        })}
      </ul>
    </Page>
  );
}
