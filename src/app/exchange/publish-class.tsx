import { useState } from 'preact/hooks';
import { type ChartDocument, formatChartFile } from '../../charts/index.ts';
import type { Files } from '../device/files.ts';
import { copyLink } from '../device/share.ts';
import { classFileOf, classLink, classPathOf, isOwnDevice } from './class-link.ts';

interface ClassProps {
  readonly document: ChartDocument;
  readonly files: Pick<Files, 'save'>;
}

/** Makes one lasting link for many students. It leads to a chart file beside the app. */
export function ClassSheet({ document, files }: ClassProps) {
  const [said, say] = useState('');
  const file = classFileOf(document.id);
  const link = classLink(document.id);
  return (
    <section class="sheet" aria-labelledby="class-title">
      <h2 id="class-title">One link for a class</h2>
      <p class="soft-words">
        For whoever puts Throughline on a web host: save this file and put it there beside the app,
        as <b>{classPathOf(document.id)}</b>. Then give your students the link. Put each new
        revision in its place: the link stays, and every student’s app asks for it and shows what
        changed.
      </p>
      <p class="class-link">{link}</p>
      {isOwnDevice(location.hostname) && (
        <p class="problem">
          This page is served by your own device, so the link works on no other. Open the app at the
          address your students use, and take the link from there.
        </p>
      )}
      <div class="publish-actions">
        <button
          type="button"
          class="key"
          onClick={() => {
            files.save(file, formatChartFile(document));
            say(`Saved as ${file}.`);
          }}
        >
          Save for the host
        </button>
        <button
          type="button"
          class="key"
          onClick={() =>
            void copyLink(link).then((copied) =>
              say(
                copied === 'copied' ? 'The link for the class is copied.' : 'Copy it from above.',
              ),
            )
          }
        >
          Copy the class link
        </button>
      </div>
      <p class="soft-words" role="status">
        {said}
      </p>
    </section>
  );
}
