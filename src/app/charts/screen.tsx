import './charts.css';
import { useMemo } from 'preact/hooks';
import {
  anchorBound,
  anchorsIn,
  type Chart,
  isolated,
  type PatternId,
  patternOf,
} from '../../charts/index.ts';
import { TableFigure } from '../../figure/index.ts';
import { lineAtSpeeds } from '../../quiz/index.ts';
import { toleranceOf } from '../../store/index.ts';
import { MIRRORS, type Mirror, type Naming } from '../../table/index.ts';
import { ChartChoice } from '../parts/chart-choice.tsx';
import { ChartSources, type SourcesModel } from '../parts/chart-sources.tsx';
import { FlagMark } from '../parts/flag-mark.tsx';
import { flaggedStarts } from '../parts/flags.ts';
import { Page } from '../parts/page.tsx';
import { formatScreen } from '../router.ts';
import type { Model } from '../state/model.ts';
import { type AsideModel, SetAsideSheet } from './aside.tsx';
import { sparedWords } from './spared-words.ts';
import { ChartUseSheet, RemoveChart, type UsedModel } from './use.tsx';

type ChartsModel = AsideModel &
  UsedModel &
  SourcesModel &
  Pick<Model, 'settings' | 'chooseChart' | 'removeChart'>;

/** Shows the chart in use, what the player can do with it, and its patterns. */
export function ChartsScreen({ model }: { readonly model: ChartsModel }) {
  const chart = model.chart.value;
  const bound = anchorBound(toleranceOf(model.settings.value));
  const anchors = useMemo(() => anchorCounts(chart, bound), [chart, bound]);
  return (
    <Page title="Charts">
      <ChartChoice model={model} />
      <ChartHead chart={chart} anchors={anchors} />
      <ChartSources model={model} />
      <ChartActions />
      <ChartUseSheet model={model} />
      <SetAsideSheet model={model} />
      <ul class="pattern-list">
        {chart.patterns.map((id) => (
          <li key={id}>
            <PatternLink
              chart={chart}
              id={id}
              anchors={anchors.get(id) ?? 0}
              flagged={flaggedStarts(chart, id, model.log.value).size}
            />
          </li>
        ))}
      </ul>
      <RemoveChart model={model} />
    </Page>
  );
}

type AnchorCounts = ReadonlyMap<PatternId, number>;

function anchorCounts(chart: Chart, bound: number): AnchorCounts {
  return new Map(chart.patterns.map((id) => [id, anchorsIn(chart, id, bound).plan.chosen.length]));
}

/** How many revisions are listed here; the others are on their own page. */
const LISTED = 3;

function ChartHead({ chart, anchors }: { readonly chart: Chart; readonly anchors: AnchorCounts }) {
  const { document, lines } = chart;
  const total = [...anchors.values()].reduce((sum, count) => sum + count, 0);
  const { before, count, after } = sparedWords(total, lines.length);
  return (
    <section class="sheet chart-head">
      <h2>{document.name}</h2>
      <p class="total">
        {before}
        <strong>{count}</strong>
        {after}
      </p>
      <p class="soft-words">
        {basisWords(chart)} {AIM_WORDS[chart.naming]}
      </p>
      <ol class="revisions">
        {[...document.revisions]
          .reverse()
          .slice(0, LISTED)
          .map((revision) => (
            <li key={revision.number}>
              <span class="number">Revision {revision.number}</span>
              <time dateTime={revision.date}>{revision.date}</time>
              <span>
                {isolated(revision.why)} <span class="soft-words">{isolated(revision.author)}</span>
              </span>
            </li>
          ))}
      </ol>
    </section>
  );
}

/** Returns a sentence such as "87 lines, computed for this table." */
function basisWords({ lines }: Chart): string {
  const measured = lines.filter(({ source }) => source === 'measured').length;
  const all = counted(lines.length, 'line');
  if (measured === 0) return `${all}, computed for this table.`;
  return measured === lines.length
    ? `${all}, measured on this table.`
    : `${all}: ${measured} measured on this table, the others computed for it.`;
}

const AIM_WORDS: Readonly<Record<Naming, string>> = {
  through: 'Aim through the sight.',
  opposite: 'A number is the point of the nose the line crosses.',
};

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`;
}

/** What a player can do with the chart in use. */
const ACTIONS: readonly { readonly href: string; readonly label: string; readonly note: string }[] =
  [
    { href: '#/edit', label: 'Edit', note: 'type numbers, priorities, remarks' },
    { href: '#/levels', label: 'Instructor’s view', note: 'who should hold which lines' },
    { href: '#/new-chart', label: 'New chart', note: 'computed, empty, from a table, or a copy' },
    {
      href: formatScreen({ name: 'table-day' }),
      label: 'Table day',
      note: 'test shots against this chart',
    },
    { href: '#/print', label: 'Print', note: 'on A4 or Letter, or folded for the pocket' },
    {
      href: '#/publish',
      label: 'Publish',
      note: 'as a file, a link, a QR code or a table',
    },
    {
      href: '#/revisions',
      label: 'See its revisions',
      note: 'what changed, when and why; go back to one',
    },
    {
      href: '#/receive',
      label: 'Receive a chart',
      note: 'a new one, or a correction of this one',
    },
  ];

function ChartActions() {
  return (
    <ul class="ways chart-ways" aria-label="What you can do with this chart">
      {ACTIONS.map(({ href, label, note }) => (
        <li key={label}>
          <a href={href}>
            <strong>{label}</strong>
            <span class="soft-words">{note}</span>
          </a>
        </li>
      ))}
    </ul>
  );
}

interface PatternLinkProps {
  readonly chart: Chart;
  readonly id: PatternId;
  readonly anchors: number;
  /** How many lines of the pattern are flagged. */
  readonly flagged: number;
}

function PatternLink({ chart, id, anchors, flagged }: PatternLinkProps) {
  const pattern = patternOf(id);
  const lines = chart.lines.filter((line) => line.pattern === id);
  const middle = lines[Math.floor(lines.length / 2)];
  const parts = middle && lineAtSpeeds(chart, middle);
  return (
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
          {counted(lines.length, 'line')}, {counted(anchors, 'anchor')}
        </span>
        {flagged > 0 && (
          <span class="flagged">
            <FlagMark /> {counted(flagged, 'line')} flagged
          </span>
        )}
      </span>
    </a>
  );
}
