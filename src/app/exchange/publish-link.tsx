import { useEffect, useState } from 'preact/hooks';
import { type ChartDocument, formatChartFile, lastRevision } from '../../charts/index.ts';
import { chartLink, LONGEST_LINK } from '../device/chart-link.ts';
import type { QrCode } from '../device/qr.ts';
import { copyLink, type Shared, shareFile, shareLink } from '../device/share.ts';
import { isOwnDevice } from './class-link.ts';

type Link =
  | { readonly at: 'making' }
  | { readonly at: 'made'; readonly url: string }
  | { readonly at: 'failed' };

function useLink(document: ChartDocument): Link {
  const [link, setLink] = useState<Link>({ at: 'making' });
  useEffect(() => {
    let stale = false;
    setLink({ at: 'making' });
    chartLink(document).then(
      (url) => stale || setLink(url === null ? { at: 'failed' } : { at: 'made', url }),
      () => stale || setLink({ at: 'failed' }),
    );
    return () => {
      stale = true;
    };
  }, [document]);
  return link;
}

/** Offers the chart as a link, to send or to show another phone as a QR code. */
export function LinkSheet({ document }: { readonly document: ChartDocument }) {
  const link = useLink(document);
  return (
    <section class="sheet" aria-labelledby="link-title" aria-busy={link.at === 'making'}>
      <h2 id="link-title">Link and QR code</h2>
      <p class="soft-words">
        A link has the last revision and leaves out the earlier ones. The chart is in the link
        itself: it is kept on no server.
      </p>
      {link.at === 'failed' && (
        <p class="problem" role="alert">
          This browser is too old to put a chart into a link. Save the file instead.
        </p>
      )}
      {link.at === 'made' && <LinkActions document={document} url={link.url} key={link.url} />}
    </section>
  );
}

const SAYS: Readonly<Record<Shared, string>> = {
  shared: 'Shared.',
  copied: 'The link is copied.',
  left: '',
  'by hand': 'Copy the link from here:',
};

type Qr = 'hidden' | 'too much' | 'not loaded' | QrCode;

function LinkActions(props: { readonly document: ChartDocument; readonly url: string }) {
  const { document, url } = props;
  const [shared, setShared] = useState<Shared | null>(null);
  const [qr, setQr] = useState<Qr>('hidden');
  const drawn = typeof qr === 'object';
  const showQr = async (): Promise<void> => {
    if (drawn) return setQr('hidden');
    try {
      const { qrOf } = await import('../device/qr.ts');
      setQr(qrOf(url) ?? 'too much');
    } catch {
      setQr('not loaded');
    }
  };
  return (
    <>
      <p>{lengthWords(url)}</p>
      {isOwnDevice(location.hostname) && (
        <p class="problem">
          This page is served by your own device, so the link opens on no other. It can still be
          pasted there, under Receive a chart.
        </p>
      )}
      <div class="publish-actions">
        <button
          type="button"
          class="key"
          onClick={() => void shareChart(document, url).then(setShared)}
        >
          Share
        </button>
        <button type="button" class="key" onClick={() => void copyLink(url).then(setShared)}>
          Copy the link
        </button>
        <button type="button" class="key" aria-expanded={drawn} onClick={() => void showQr()}>
          {drawn ? 'Hide the QR code' : 'Show a QR code'}
        </button>
      </div>
      <p class="soft-words" role="status">
        {shared && SAYS[shared]}
      </p>
      {shared === 'by hand' && (
        <input
          type="text"
          readOnly
          value={url}
          aria-label="Link to this chart"
          onFocus={(event) => event.currentTarget.select()}
        />
      )}
      <QrPanel qr={qr} name={document.name} />
    </>
  );
}

/** Shares the file if the device can share files, otherwise the link. */
async function shareChart(document: ChartDocument, url: string): Promise<Shared> {
  const text = formatChartFile(document);
  const name = `${document.id}-revision-${lastRevision(document).number}`;
  // Some browsers share only text files. Receiving does not depend on the file's name.
  const files = [
    new File([text], `${name}.json`, { type: 'application/json' }),
    new File([text], `${name}.txt`, { type: 'text/plain' }),
  ];
  for (const file of files) {
    const shared = await shareFile(document.name, file);
    if (shared) return shared;
  }
  return shareLink(document.name, url);
}

function lengthWords({ length }: string): string {
  const characters = length.toLocaleString('en-GB');
  return length > LONGEST_LINK
    ? `The link has ${characters} characters. Much that carries links cuts one so long: send the file instead.`
    : `The link has ${characters} characters.`;
}

function QrPanel({ qr, name }: { readonly qr: Qr; readonly name: string }) {
  if (qr === 'hidden') return null;
  if (typeof qr === 'string')
    return (
      <p class="problem" role="alert">
        {qr === 'too much'
          ? 'The chart is too much for a QR code that a phone can read. Send the link or the file.'
          : 'The QR code could not be fetched: the device is not online.'}
      </p>
    );
  return (
    <figure class="qr">
      <svg viewBox={`0 0 ${qr.size} ${qr.size}`} role="img" aria-label={`QR code of ${name}`}>
        <rect width={qr.size} height={qr.size} />
        <path d={qr.path} />
      </svg>
      <figcaption class="soft-words">
        {qr.modules} by {qr.modules} squares. Point the other phone’s camera at it.
      </figcaption>
    </figure>
  );
}
