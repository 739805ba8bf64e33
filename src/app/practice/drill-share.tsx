import { useState } from 'preact/hooks';
import { linkTo, type Shared, shareLink } from '../device/share.ts';
import { formatScreen } from '../router.ts';

const SAYS: Readonly<Record<Shared, string>> = {
  shared: 'Shared.',
  copied: 'The link is copied.',
  left: '',
  'by hand': 'Copy the link from here:',
};

/** Shares the drill's link through the device, the clipboard, or a field to copy from. */
export function ShareDrill({ code }: { readonly code: string }) {
  const [shared, setShared] = useState<Shared | null>(null);
  const link = linkTo(formatScreen({ name: 'drill', code }));
  return (
    <div class="drill-share">
      <button
        type="button"
        class="key quiet"
        onClick={() => void shareLink('A drill', link).then(setShared)}
      >
        Share this drill
      </button>
      <p class="soft-words" role="status">
        {shared && SAYS[shared]}
      </p>
      {(shared === 'copied' || shared === 'by hand') && (
        <input
          type="text"
          readOnly
          value={link}
          aria-label="Link to this drill"
          onFocus={(event) => event.currentTarget.select()}
        />
      )}
    </div>
  );
}
