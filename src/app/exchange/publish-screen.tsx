import './publish.css';
import { useState } from 'preact/hooks';
import {
  CHART_SCHEMA,
  type ChartDocument,
  formatChartFile,
  isolated,
  lastRevision,
} from '../../charts/index.ts';
import type { Files } from '../device/files.ts';
import { Page } from '../parts/page.tsx';
import type { Model } from '../state/model.ts';
import { ClassSheet } from './publish-class.tsx';
import { LinkSheet } from './publish-link.tsx';
import { TableSheet } from './publish-table.tsx';

interface PublishProps {
  readonly model: Pick<Model, 'chart'>;
  readonly files: Pick<Files, 'save'>;
}

/** Publishes the chart in use: as a file, a link, a QR code or a table. */
export function PublishScreen({ model, files }: PublishProps) {
  const chart = model.chart.value;
  const { document } = chart;
  return (
    <Page title="Publish">
      <div class="publish">
        <div>
          <FileSheet document={document} files={files} />
          <LinkSheet document={document} key={document.id} />
        </div>
        <div>
          <ClassSheet document={document} files={files} />
          <TableSheet chart={chart} files={files} />
          <section class="sheet" aria-labelledby="receive-title">
            <h2 id="receive-title">How it is received</h2>
            <p>
              Whoever opens the link, or chooses the file under{' '}
              <a href="#/receive">Receive a chart</a>, sees first what it would change, and takes it
              in or leaves it.
            </p>
          </section>
        </div>
      </div>
    </Page>
  );
}

interface FileSheetProps extends Pick<PublishProps, 'files'> {
  readonly document: ChartDocument;
}

function FileSheet({ document, files }: FileSheetProps) {
  const [said, say] = useState('');
  const { number, date, author, why } = lastRevision(document);
  const text = formatChartFile(document);
  const name = `${document.id}-revision-${number}.json`;
  return (
    <section class="sheet" aria-labelledby="file-title">
      <h2 id="file-title">{document.name}</h2>
      <p>
        Revision {number}, <time dateTime={date}>{date}</time>, {isolated(author)}: {isolated(why)}
      </p>
      <p class="soft-words">
        The chart file has the chart with its history and levels, {sizeWords(text)}. Its{' '}
        <a href={CHART_SCHEMA}>format</a> is open.
      </p>
      <div class="publish-actions">
        <button
          type="button"
          class="key call"
          onClick={() => {
            files.save(name, text);
            say(`Saved as ${name}.`);
          }}
        >
          Save the chart file
        </button>
      </div>
      <p class="soft-words" role="status">
        {said}
      </p>
    </section>
  );
}

/** Returns a size such as "2.5 kB". */
function sizeWords(text: string): string {
  const bytes = new TextEncoder().encode(text).length;
  return `${(bytes / 1000).toFixed(bytes < 100_000 ? 1 : 0)} kB`;
}
