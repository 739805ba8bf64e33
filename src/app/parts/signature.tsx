import { useState } from 'preact/hooks';
import type { Signature } from '../../charts/index.ts';
import type { Model } from '../state/model.ts';

export interface Signing {
  readonly author: string;
  readonly why: string;
  readonly setAuthor: (author: string) => void;
  readonly setWhy: (why: string) => void;
  /** The author, the reason and the date, which is the study day. */
  readonly signature: Signature;
  /** A sentence that says what is missing; null if nothing is. */
  readonly missing: string | null;
  /** Stores the name for next time. */
  readonly remember: () => Promise<void>;
}

export type SigningModel = Pick<Model, 'settings' | 'date' | 'changeSettings'>;

/** Asks who makes a revision and why. The name field starts with the name that was given last. */
export function useSigning(model: SigningModel, firstWhy: string): Signing {
  const [author, setAuthor] = useState(() => model.settings.peek().author);
  const [why, setWhy] = useState(firstWhy);
  const signature = { date: model.date(), author: author.trim(), why: why.trim() };
  return {
    author,
    why,
    setAuthor,
    setWhy,
    signature,
    missing: missingIn(signature),
    remember: async () => {
      if (model.settings.peek().author !== signature.author)
        await model.changeSettings({ author: signature.author });
    },
  };
}

function missingIn({ author, why }: Signature): string | null {
  if (author === '') return 'Say who you are: whoever gets the chart reads it.';
  return why === '' ? 'Say why, in a few words.' : null;
}

/**
 * The maximum numbers of characters that a chart's schema allows (src/charts/document/schema.ts).
 */
const LONGEST_AUTHOR = 80;
const LONGEST_WHY = 400;

export function SignatureFields({ signing }: { readonly signing: Signing }) {
  return (
    <div class="signature">
      <label>
        <span class="choice-label">Your name</span>
        <input
          type="text"
          autocomplete="name"
          maxLength={LONGEST_AUTHOR}
          value={signing.author}
          onInput={(event) => signing.setAuthor(event.currentTarget.value)}
        />
      </label>
      <label>
        <span class="choice-label">Why</span>
        <input
          type="text"
          maxLength={LONGEST_WHY}
          value={signing.why}
          onInput={(event) => signing.setWhy(event.currentTarget.value)}
        />
      </label>
      <p class="soft-words" role="status">
        {signing.missing}
      </p>
    </div>
  );
}
