/** The least that a page of this make can be: what a first card is measured against. */

import { signal } from '@preact/signals';
import { render } from 'preact';

const title = signal('Empty');

function Empty() {
  return (
    <main>
      <h1>{title}</h1>
    </main>
  );
}

const root = document.getElementById('app');
if (!root) throw new Error('the page has no #app');
render(<Empty />, root);
// As the app does, after the first screen.
window.addEventListener('load', () => void navigator.serviceWorker.register('./service-worker.js'));
