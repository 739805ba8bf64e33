import { type OrderChange, type Ordered, PRIORITIES, type Priority } from '../../charts/index.ts';
import { placeName } from '../parts/changes/change-words.ts';

/** How many lines of each step are named at once; a tap shows the others. */
const NAMED = 4;

interface PreviewProps {
  readonly order: readonly Ordered[];
  readonly change: OrderChange;
}

/** Shows a suggested order: what it changes, what it replaces, and its lines by step. */
export function OrderPreview({ order, change }: PreviewProps) {
  return (
    <>
      <p>{orderWords(order)}</p>
      <p>{changeWords(change)}</p>
      {PRIORITIES.map((step) => (
        <OrderStep
          key={step}
          step={step}
          lines={order.filter(({ priority }) => priority === step)}
          change={change}
        />
      ))}
    </>
  );
}

/** Returns a sentence such as "Of 87 lines 29 first, 29 in turn, 29 last." */
function orderWords(order: readonly Ordered[]): string {
  const counts = PRIORITIES.map(
    (one) => `${order.filter(({ priority }) => priority === one).length} ${one}`,
  );
  return `Of ${order.length} lines ${counts.join(', ')}.`;
}

function changeWords({ moves, replaced }: OrderChange): string {
  if (moves.length === 0 && replaced === 0) return 'Every line stands so already.';
  const lines = moves.length === 1 ? 'One line changes' : `${moves.length} lines change`;
  if (replaced === 0) return `${lines}. No priority that was set gives way.`;
  const gone =
    replaced === 1
      ? 'one priority that was set gives'
      : `${replaced} priorities that were set give`;
  return `${lines}, and ${gone} way.`;
}

function OrderStep(props: {
  readonly step: Priority;
  readonly lines: readonly Ordered[];
  readonly change: OrderChange;
}) {
  const { step, lines, change } = props;
  const more = lines.slice(NAMED);
  if (lines.length === 0) return null;
  return (
    <section class="order-step" aria-label={`Learn ${step}`}>
      <h3>Learn {step}</h3>
      <StepList order={lines.slice(0, NAMED)} change={change} />
      {more.length > 0 && (
        <details>
          <summary>And {more.length} more</summary>
          <StepList order={more} change={change} />
        </details>
      )}
    </section>
  );
}

function StepList({ order: lines, change }: PreviewProps) {
  return (
    <ul>
      {lines.map((line) => {
        const move = change.moves.find(
          ({ pattern, start }) => pattern === line.pattern && start === line.start,
        );
        return (
          <li key={placeName(line)}>
            {placeName(line)}
            {move && <span class="soft-words"> now {move.from}</span>}
          </li>
        );
      })}
    </ul>
  );
}
