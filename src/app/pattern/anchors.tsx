import {
  type AnchorNumber,
  type Decimal,
  formatDecimal,
  type Sheet,
  type SheetLine,
  type SheetNumber,
  stepCues,
} from '../../charts/index.ts';
import { stepWords } from '../../quiz/index.ts';

/**
 * Shows the few lines to remember, how many lines each pair of anchors saves, and how far
 * proportion between two anchors is off.
 */
export function Anchors(props: {
  readonly sheet: Sheet;
  readonly printStep: Decimal;
  readonly bound: number;
}) {
  const { sheet, printStep, bound } = props;
  const { anchors } = sheet;
  const entries = sheet.entries.map((index) => sheet.lines[index] as SheetLine);
  // A single line has no other lines to stand for.
  if (entries.length < 2) return null;
  const cues = stepCues(
    anchors.chosen.map((n) => anchorAt(entries[n])),
    printStep,
    bound,
  );
  return (
    <section class="sheet anchors" aria-label="Anchors">
      <h2>
        Remember {anchors.chosen.length} of {entries.length}
      </h2>
      <p>
        These <span class="anchor-mark" aria-hidden="true" /> anchors stand for the whole pattern:
        between two of them go by proportion. The worst line between is {anchors.worst.toFixed(2)}{' '}
        of a diamond off.
      </p>
      <ol>
        {anchors.spans.map((span, n) => {
          const from = entries[span.from] as SheetLine;
          const to = entries[span.to] as SheetLine;
          const cue = cues[n];
          return (
            <li key={from.start}>
              <strong>
                {formatDecimal(from.start)} to {formatDecimal(to.start)}
              </strong>
              <span>{cue && stepWords(cue)}</span>
              <span class="soft-words">{sparedWords(span.derived.map((one) => one.start))}</span>
              {cue?.drifts && (
                <span class="soft-words">Counting drifts: count from the nearer anchor.</span>
              )}
            </li>
          );
        })}
      </ol>
    </section>
  );
}

function anchorAt(line: SheetLine | undefined): AnchorNumber {
  const number = line?.numbers.medium;
  if (!line || number === undefined || typeof number === 'string') {
    throw new Error('an anchor has a number at medium speed');
  }
  return { start: line.start, printed: (number satisfies SheetNumber).printed };
}

function sparedWords(starts: readonly Decimal[]): string {
  if (starts.length === 0) return 'saves none';
  return `spares ${starts.map((start) => formatDecimal(start)).join(', ')}`;
}
