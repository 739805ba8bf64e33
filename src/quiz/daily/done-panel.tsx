import type { Card } from '../../cards/index.ts';
import { cardName, cardTruth } from '../words/card.ts';
import type { Longer, Summary } from './summary.ts';

/** How many of the cards with a longer interval are named, at most. */
const NAMED = 5;

/** Shows the end of a session. */
export function DonePanel(props: {
  readonly why: 'nothing left' | 'time is up';
  readonly problem: string | null;
  readonly summary: Summary;
  readonly longer: readonly Longer[];
  /** How many cards could still be asked today. */
  readonly waiting: number;
  readonly goOn: () => void;
  readonly leave: () => void;
}) {
  const { why, summary, longer } = props;
  const { answers, counts, missed, tomorrow } = summary;
  const over = why === 'time is up';
  return (
    <section class="done">
      <h1>{over ? 'Your minutes are over' : 'Nothing left for today'}</h1>
      {answers === 0 ? (
        <p>Every card was asked today, or waits for others. Lines set aside are not asked.</p>
      ) : (
        <p>
          {answers} {answers === 1 ? 'answer' : 'answers'} today:{' '}
          {counts.map(({ outcome, count }) => `${count} ${outcome}`).join(', ')}.
        </p>
      )}
      <HoldsLonger longer={longer} />
      <ToLookAt missed={missed} />
      <p class="soft-words">{tomorrow}</p>
      {props.problem && (
        <p class="problem" role="alert">
          {props.problem}
        </p>
      )}
      <div class="answer-actions">
        {over && props.waiting > 0 && (
          <button type="button" class="key quiet" onClick={props.goOn}>
            Continue
          </button>
        )}
        <button type="button" class="key call" onClick={props.leave}>
          To Today
        </button>
      </div>
    </section>
  );
}

function HoldsLonger({ longer }: { readonly longer: readonly Longer[] }) {
  if (longer.length === 0) return null;
  return (
    <>
      <h2>Getting stronger</h2>
      <ul class="missed">
        {longer.slice(0, NAMED).map((one) => (
          <li key={one.card.id}>{longerWords(one)}</li>
        ))}
      </ul>
      {longer.length > NAMED && <p class="soft-words">and {longer.length - NAMED} more.</p>}
    </>
  );
}

function ToLookAt({ missed }: { readonly missed: readonly Card[] }) {
  if (missed.length === 0) return null;
  return (
    <>
      <h2>Review these</h2>
      <ul class="missed">
        {missed.map((card) => (
          <li key={card.id}>{lookAtWords(card)}</li>
        ))}
      </ul>
    </>
  );
}

/** Returns, for example, "Cross-corner from 3.0, window: soft same, firm −0.1". */
function lookAtWords(card: Card): string {
  const what = card.kind === 'window' ? ', window' : '';
  return [`${cardName(card)}${what}`, cardTruth(card)].filter(Boolean).join(': ');
}

/** Returns, for example, "Cross-corner from 3.0, window: back in 11 days (was 4)." */
function longerWords({ card, before, now }: Longer): string {
  const what = card.kind === 'number' || !('line' in card) ? '' : `, ${card.kind}`;
  const was = before === null ? '' : ` (was ${before})`;
  const when = now === null ? 'back much later' : `back in ${now} ${now === 1 ? 'day' : 'days'}`;
  return `${cardName(card)}${what}: ${when}${was}.`;
}
