import { type Decimal, formatDecimal } from '../../charts/index.ts';

/** Says what a player should know about the numbers and about grading. */
export function GoodToKnow({ tolerance }: { readonly tolerance: Decimal }) {
  const arrival = Math.round(2.5 * tolerance) as Decimal;
  const within = formatDecimal(tolerance);
  return (
    <section class="sheet">
      <h2>Good to know</h2>
      <p>
        Numbers are aids. They are computed for one table in one condition; tables differ, so check
        them on yours. Firm shots are outside the range in which the cushion model was measured.
      </p>
      <p>
        An outcome says how far your number is from the right one: dead center and pocketed are
        near, rattled is at the edge of the tolerance or slow, off is outside. What the ball would
        have done is told beside it; on a line that is very sensitive even the printed number can
        miss.
      </p>
      <p>What is right, and how far beside it still counts, goes by the kind of question:</p>
      <dl class="terms">
        <dt>Number, window</dt>
        <dd>The printed number, within {within}. Of a window both parts have to be.</dd>
        <dt>Arrival</dt>
        <dd>
          The place where the ball touches the rail, within {formatDecimal(arrival, 2)}: two and a
          half times as far, for a small change of aim moves the arrival more.
        </dd>
        <dt>In between</dt>
        <dd>
          The number the ball itself needs, not rounded and not the rule’s, within {within}. On a
          measured pattern it is the smooth curve through the measured numbers.
        </dd>
        <dt>Rail ball, off the rail</dt>
        <dd>
          The number that hits the ball full. You may be off by as much as still hits half of the
          ball: {within} at least, {formatDecimal((2 * tolerance) as Decimal)} at most.
        </dd>
        <dt>Trust</dt>
        <dd>Banks, thin or kick only: right or off; right but slow is rattled.</dd>
      </dl>
      <p>Do not practice while driving.</p>
      <p class="soft-words">
        Everything stays on this device, but for what you sync, encrypted, to a storage of your own.
      </p>
    </section>
  );
}
