import { useState } from 'preact/hooks';
import type { Offline } from './offline.ts';

const SLOW = 'It has not come yet. Close all tabs of Throughline, then open it again.';
const ELSEWHERE = 'Something is under way in another tab. Finish it there, or close that tab.';

/** Offers a newer version. It appears on Today and Settings, which have no session. */
export function NewerVersion({ offline }: { readonly offline: Offline }) {
  const [said, setSaid] = useState('');
  if (!offline.isWaiting.value) return null;
  const change = async (): Promise<void> => {
    setSaid('One moment …');
    const changes = await offline.activate();
    // Usually the page has already reloaded by now.
    setSaid(changes ? SLOW : ELSEWHERE);
  };
  return (
    <section class="sheet offer" aria-label="A newer version">
      <p>A newer Throughline has been fetched. What you have answered stays as it is.</p>
      <button type="button" class="key quiet" onClick={() => void change()}>
        Change to it now
      </button>
      <p class="soft-words" role="status">
        {said}
      </p>
    </section>
  );
}
