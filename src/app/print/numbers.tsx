import { formatDecimal } from '../../charts/index.ts';
import type { Speed } from '../../table/index.ts';
import { originWords, type PrintRow } from './words.ts';

const SHORT: Readonly<Record<Speed, string>> = { soft: 'soft', medium: 'med.', firm: 'firm' };

/** Shows the numbers by start and speed, with anchors in bold and with a mark. */
export function PrintNumbers(props: {
  readonly caption: string;
  readonly rows: readonly PrintRow[];
  readonly speeds: readonly Speed[];
  /** Whether to mark the origin of each number, because there are several origins. */
  readonly mixed: boolean;
  /** Whether the columns are narrow, with short heads. */
  readonly short?: boolean;
}) {
  const { rows, speeds, mixed } = props;
  return (
    <table class="print-numbers">
      <caption class="visually-hidden">{props.caption}</caption>
      <thead>
        <tr>
          <th scope="col">from</th>
          {speeds.map((speed) => (
            <th key={speed} scope="col" class={speed}>
              {props.short ? SHORT[speed] : speed}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.start} class={row.anchor ? 'anchor' : ''}>
            <th scope="row">
              {row.anchor && <AnchorSign />}
              {formatDecimal(row.start)}
            </th>
            {row.numbers.map((number, n) => (
              <td key={speeds[n]}>
                <span class={mixed ? number.origin.replace(' ', '-') : ''}>
                  {formatDecimal(number.printed)}
                </span>
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Returns whether the numbers have several origins. */
export function isMixed(rows: readonly PrintRow[]): boolean {
  return new Set(rows.flatMap(({ numbers }) => numbers.map(({ origin }) => origin))).size > 1;
}

/** The sign is drawn, because a typeface may lack it and browsers do not print backgrounds. */
function AnchorSign() {
  return (
    <svg class="anchor-sign" viewBox="0 0 10 10" aria-hidden="true">
      <path d="M5 0L10 5L5 10L0 5Z" />
    </svg>
  );
}

/** Says what the marks in use mean. */
export function MarksKey({ rows }: { readonly rows: readonly PrintRow[] }) {
  return (
    <>
      {rows.some(({ anchor }) => anchor) && (
        <>
          <AnchorSign /> An anchor: remember it; between two anchors go by proportion.{' '}
        </>
      )}
      {originWords(rows)}
    </>
  );
}
