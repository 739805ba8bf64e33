import { useState } from 'preact/hooks';
import type { Offline } from './offline.ts';

const SLOW = 'It has not come yet. Close all tabs of Throughline, then open it again.';
const ELSEWHERE = 'Something is under way in another tab. Finish it there, or close that tab.';

/** Offers a newer version where nothing is under way: on Today and in Settings. */
export function NewerVersion({ offline }: { readonly offline: Offline }) {
  const [said, setSaid] = useState('');
  if (!offline.waits.value) return null;
  const take = async (): Promise<void> => {
    setSaid('One moment …');
    const taken = await offline.takeOver();
    // This page has been loaded anew by then, as a rule.
    setSaid(taken ? SLOW : ELSEWHERE);
  };
  return (
    <section class="sheet offer" aria-label="A newer version">
      <p>A newer Throughline has been fetched. What you have answered stays as it is.</p>
      <button type="button" class="key quiet" onClick={() => void take()}>
        Change to it now
      </button>
      <p class="soft-words" role="status">
        {said}
      </p>
    </section>
  );
}
