/** Marks a number with a sign for its origin. Computed numbers have no sign. */

import { NUMBER_SOURCES, type NumberSource, type SheetLine } from '../../charts/index.ts';
import { SPEEDS } from '../../table/index.ts';

const SIGNS: Readonly<Record<NumberSource, string>> = {
  computed: '',
  measured: '•',
  interpolated: '≈',
  'by window': '±',
};

const MEANINGS: Readonly<Record<NumberSource, string>> = {
  computed: 'computed',
  measured: 'measured, or given by hand',
  interpolated: 'interpolated between measured numbers',
  'by window': 'from the line’s measured number and the computed window',
};

export function SourceMark({ source }: { readonly source: NumberSource }) {
  if (source === 'computed') return null;
  return (
    <span class="source-mark">
      <span aria-hidden="true">{SIGNS[source]}</span>
      <span class="visually-hidden"> {source}</span>
    </span>
  );
}

/** Says what the signs in these lines mean. Shows nothing if all numbers are computed. */
export function SourceLegend({ lines }: { readonly lines: readonly SheetLine[] }) {
  const used = new Set(
    lines.flatMap(({ numbers }) =>
      SPEEDS.flatMap((speed) => {
        const number = numbers[speed];
        return typeof number === 'string' ? [] : [number.source];
      }),
    ),
  );
  if (![...used].some((source) => source !== 'computed')) return null;
  const signs = NUMBER_SOURCES.filter((source) => used.has(source));
  return (
    <p class="source-legend soft-words">
      {signs.map((source) => (
        <span key={source}>
          <span class="source-mark">{SIGNS[source] || 'no sign'}</span> {MEANINGS[source]}
        </span>
      ))}
    </p>
  );
}
